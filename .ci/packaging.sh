#!/usr/bin/env bash
# Builds the sdist, and the wheel from it, and installs that wheel on the oldest and the newest Python that is supported:
# each then tells its versions, lists its kinds, and grades the demo. A Python that this machine has not got is told and
# passed over; where both are missing, that is a failure. A folder that is named gets a copy of the wheel.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

pythons=(3.11 3.13)
built="$(mktemp -d)"
trap 'rm -rf "$built"' EXIT

# A Python of that version that runs: by its name, or among those that a version manager keeps.
python_of() {
    local each
    for each in "python$1" "$HOME"/.pyenv/versions/"$1".*/bin/python "$HOME"/.local/share/uv/python/cpython-"$1".*/bin/python3; do
        if "$each" -c "import sys, venv, ensurepip; sys.exit('%d.%d' % sys.version_info[:2] != '$1')" 2>/dev/null; then
            echo "$each"
            return 0
        fi
    done
    return 1
}

git ls-files -z | xargs -0 cp --parents -t "$(mkdir -p "$built/source" && echo "$built/source")"
(cd "$built/source" && "$OLDPWD/.venv/bin/python" -c "from setuptools import build_meta; build_meta.build_sdist('$built')" >"$built/log" 2>&1) || {
    cat "$built/log" >&2
    exit 1
}
.venv/bin/pip wheel -q --no-deps --no-build-isolation -w "$built" "$built"/gudgeon-*.tar.gz
# What stands in the packages' folders stands in the wheel that came by way of the sdist, words and tables too.
.venv/bin/python - "$built"/gudgeon-*.whl <(git ls-files reporter plugins templates) <<'END'
import sys, zipfile
held = set(zipfile.ZipFile(sys.argv[1]).namelist())
homes = {"plugins/": "reporter_plugins/", "templates/": "reporter_templates/"}
kept = {next((n + f[len(o):] for o, n in homes.items() if f.startswith(o)), f) for f in open(sys.argv[2]).read().split()}
sys.exit(f"packaging: missing in the wheel: {sorted(kept - held)}" if kept - held else 0)
END

[[ -z "${1:-}" ]] || { mkdir -p "$1" && cp "$built"/gudgeon-*.whl "$1"; }

tried=0
for version in "${pythons[@]}"; do
    if ! python="$(python_of "$version")"; then
        echo "packaging: not tried on Python $version, which this machine has not got"
        continue
    fi
    "$python" -m venv "$built/$version"
    # Nothing is run but the program itself, so most of what is installed never needs to be compiled.
    "$built/$version/bin/python" -m pip install -q --disable-pip-version-check --no-compile "$built"/gudgeon-*.whl
    "$built/$version/bin/gudgeon" --version | head -2
    "$built/$version/bin/gudgeon" plugins >/dev/null
    "$built/$version/bin/gudgeon" check demo_job | head -2
    tried=$((tried + 1))
done
((tried)) || { echo "packaging: no supported Python was found" >&2; exit 1; }
echo "packaging: built, installed and run on $tried of ${#pythons[@]} Pythons"
