"""The drawing office: plain shapes on paper, in millimetres."""
