"""Facts to solids: building the piece in 3D, checking that it fits, counting what it takes."""
