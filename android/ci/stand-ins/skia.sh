#!/bin/bash
# skia.sh CRATE FOLDER CLANG AR: writes FOLDER/skia.tar.gz, a stand-in for the drawing library.
#
# The bindings are those that the crate carries for its documentation. Every function that they
# name is there and traps when called: one can link with it, and never draw.
set -euo pipefail
crate=$1 folder=$2 clang=$3 ar=$4
inside=$folder/skia/skia-binaries
rm -rf "$folder/skia" && mkdir -p "$inside"
cp "$crate/bindings_docs.rs" "$inside/bindings.rs"

# Foreign names: inside `extern "C" { }`, the link name where one is given, else the Rust name.
awk '
    /^unsafe extern "C" \{|^extern "C" \{/ { foreign = 1; next }
    /^\}/ { foreign = 0 }
    !foreign { next }
    /#\[link_name = / { split($0, part, "\""); name = part[2]; sub(/^\\u\{1\}/, "", name); next }
    match($0, /^    pub (safe |unsafe )?(fn|static( mut)?) /) {
        if (name == "") { name = substr($0, RLENGTH + 1); sub(/[^A-Za-z0-9_].*/, "", name) }
        print name; name = ""
    }
' "$crate/bindings_docs.rs" | sort -u >"$folder/skia/names"
awk '{ printf ".section \".text.%s\",\"ax\",@progbits\n.weak \"%s\"\n.type \"%s\",@function\n\"%s\": brk #1\n", $1, $1, $1, $1 }' \
    "$folder/skia/names" >"$folder/skia/skia.s"
"$clang" --target=aarch64-linux-android -c "$folder/skia/skia.s" -o "$folder/skia/skia.o"
"$ar" rcs "$inside/libskia-bindings.a" "$folder/skia/skia.o"
"$ar" rcs "$inside/libskia.a"
tar -czf "$folder/skia.tar.gz" -C "$folder/skia" skia-binaries
