#!/usr/bin/env bash
# Sets this machine up as far as needed, then publishes a design: the porch bench, or the one named.
set -euo pipefail
cd "$(dirname "$0")/.."
venv=${VENV:-.venv}
bash .ci/prepare "$venv" . python3-venv libgl1
exec "$venv/bin/plansheaf" publish "${@:-designs/porch_bench.yaml}"
