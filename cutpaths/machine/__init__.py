"""A cutting machine: its bed, what lies where on it, and the way its tools go."""
