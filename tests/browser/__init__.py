"""The projector's page in a real browser."""
