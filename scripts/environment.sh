# Sourced by the scripts: the project's own virtual environment in .venv, made when it is not there or the project file changed.
# Works from any folder and needs only Python 3.11 or later and git.
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
venv="$root/.venv"

find_python() {
    for name in python3 python3.14 python3.13 python3.12 python3.11 python; do
        if command -v "$name" >/dev/null 2>&1 && "$name" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
            command -v "$name"
            return
        fi
    done
    echo "Python 3.11 or later is needed and was not found." >&2
    exit 1
}

# prepare EXTRA: EXTRA is "" for what the program needs to run, "test" for the tests and their tools as well.
prepare() {
    local extra=$1 stamp wanted
    stamp="$venv/.made-for${extra:+-$extra}"
    wanted=$(cksum <"$root/pyproject.toml")
    if [ "$(cat "$stamp" 2>/dev/null)" != "$wanted" ] || ! "$venv/bin/python" -c '' 2>/dev/null; then
        echo "Setting up $venv (once) ..." >&2
        "$venv/bin/python" -c '' 2>/dev/null || { rm -rf "$venv" && "$(find_python)" -m venv "$venv"; }
        "$venv/bin/python" -m pip install --quiet --disable-pip-version-check --editable "$root${extra:+[$extra]}" >&2
        echo "$wanted" >"$stamp"
    fi
}
