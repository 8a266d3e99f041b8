"""Words on the machine that plansheaf runs on."""

NO_KERNEL = (
    "The geometry kernel needs the system library libGL.so.1: install it with "
    "'apt-get install libgl1' (Debian, Ubuntu) or your system's package for OpenGL."
)
