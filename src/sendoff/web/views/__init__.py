"""The pages: each fetches, asks a service to write, and shows."""
