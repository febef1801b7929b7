"""Readers that share nothing with our writers and readers, for tests only."""
