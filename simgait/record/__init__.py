"""The fitting record of one wearer: one text file that people read and only ever add to."""
