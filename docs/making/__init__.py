"""How the generated pages and pictures of the documentation are made; see docs/generate.py."""
