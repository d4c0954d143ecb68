"""Pictures of studies."""
