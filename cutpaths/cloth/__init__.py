"""The cloth: what to buy, how to cut it, and kits by the dozen."""
