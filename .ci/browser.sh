#!/usr/bin/env bash
# Makes the browser ready that tests/web/test_browser.py looks at pages with. Safe to run again: it then does nothing.
set -euo pipefail

command -v chromium >/dev/null && exit 0
if [[ "$(id -u)" != 0 ]] || ! command -v apt-get >/dev/null; then
    echo "browser: install this first: chromium" >&2
    exit 1
fi
echo "browser: installing chromium" >&2
apt-get update -qq >&2
DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends chromium >&2
