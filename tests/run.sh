#!/usr/bin/env bash
# Sets this machine up as far as needed, then runs every test. VENV names another folder for the environment.
set -euo pipefail
cd "$(dirname "$0")/.."
venv=${VENV:-.venv}
bash .ci/prepare "$venv" "-e .[dev]" python3-venv libgl1 libglu1-mesa libxrender1 libxcursor1 libxft2 libxinerama1 poppler-utils qpdf
exec "$venv/bin/python" -m pytest -q -n "${JOBS:-2}" --dist loadgroup "$@"
