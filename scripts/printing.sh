# Sourced by the scripts: poppler's pdftoppm, with which the tests read printed pages back. Installed where that can be done without
# asking (Debian or Ubuntu, as root); elsewhere those tests are skipped, and say so.
read_pages_back() {
    command -v pdftoppm >/dev/null 2>&1 && return
    if command -v apt-get >/dev/null 2>&1 && [ "$(id -u)" = 0 ]; then
        echo "Installing poppler-utils, to read printed pages back ..." >&2
        { apt-get update -qq && apt-get install -y -qq --no-install-recommends poppler-utils; } >/dev/null 2>&1 || true
    fi
    command -v pdftoppm >/dev/null 2>&1 || echo "pdftoppm is not there: the tests that read printed pages back are skipped." >&2
}

# Chromium, in which the tests open the pages: likewise.
open_pages() {
    for name in chromium chromium-browser google-chrome chrome; do
        if command -v "$name" >/dev/null 2>&1; then return; fi
    done
    if command -v apt-get >/dev/null 2>&1 && [ "$(id -u)" = 0 ]; then
        echo "Installing chromium, to open pages in ..." >&2
        { apt-get update -qq && apt-get install -y -qq --no-install-recommends chromium fonts-liberation; } >/dev/null 2>&1 || true
    fi
    command -v chromium >/dev/null 2>&1 || echo "No chromium is there: the tests that open pages in a browser are skipped." >&2
}
