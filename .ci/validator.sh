#!/usr/bin/env bash
# Makes the PDF checkers ready: the reference validator's class path, qpdf and pdfinfo. Safe to run again: it then
# does nothing. Prints the class path file, which tests/validator/verapdf.py looks for in the same place.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

cache="${GUDGEON_CACHE:-${XDG_CACHE_HOME:-$HOME/.cache}/gudgeon}"
classpath="$cache/validator.classpath"

missing=()
command -v java >/dev/null || missing+=(openjdk-17-jre-headless)
command -v mvn >/dev/null || missing+=(maven)
command -v qpdf >/dev/null || missing+=(qpdf)
command -v pdfinfo >/dev/null || missing+=(poppler-utils)
if ((${#missing[@]})); then
    if [[ "$(id -u)" != 0 ]] || ! command -v apt-get >/dev/null; then
        echo "validator: install these first: ${missing[*]}" >&2
        exit 1
    fi
    echo "validator: installing ${missing[*]}" >&2
    apt-get update -qq >&2
    DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >&2
fi

# A class path is stale when the pom is newer or one of its jars has gone.
whole() {
    [[ -s "$classpath" && ! tests/validator/pom.xml -nt "$classpath" ]] || return 1
    local jar
    while read -r jar; do [[ -f "$jar" ]] || return 1; done < <(tr ':' '\n' <"$classpath" | sed '$a\')
}
if ! whole; then
    mkdir -p "$cache"
    mvn -B -q -f tests/validator/pom.xml dependency:build-classpath -Dmdep.outputFile="$classpath.part" >&2
    mv "$classpath.part" "$classpath"
fi
echo "$classpath"
