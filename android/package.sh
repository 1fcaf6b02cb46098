#!/bin/bash
# package.sh LIBRARY.so PACKAGE.apk: packs, aligns and signs.
#
# With ANDROID_HOME set, the tools are those of the SDK and of ANDROID_NDK_HOME; without it,
# Debian's (aapt, android-framework-res, zipalign, apksigner, zip, llvm).
# The key: KEYSTORE, KEYSTORE_PASSWORD, KEY_ALIAS. Without KEYSTORE a key is made for this once,
# and the package installs only where no other Strawblue is.
set -euo pipefail
library=$(realpath "$1")
package=$(realpath -m "$2")
here=$(cd "$(dirname "$0")" && pwd)
manifest=${MANIFEST:-$here/AndroidManifest.xml}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

last() { printf '%s\n' "$@" | sort -V | tail -n 1; }
if [ -n "${ANDROID_HOME:-}" ]; then
    PATH=$(last "$ANDROID_HOME"/build-tools/*):$PATH
    system=${ANDROID_JAR:-$(last "$ANDROID_HOME"/platforms/android-*/android.jar)}
    strip=$(last "${ANDROID_NDK_HOME:?set it to the NDK}"/toolchains/llvm/prebuilt/*/bin/llvm-strip)
else
    system=/usr/share/android-framework-res/framework-res.apk
    strip=${STRIP:-llvm-strip-19}
fi

aapt2 compile --dir "$here/res" -o "$work/res.zip"
aapt2 link --manifest "$manifest" -I "$system" -o "$work/package.apk" "$work/res.zip"

mkdir -p "$work/lib/arm64-v8a"
"$strip" --strip-unneeded -o "$work/lib/arm64-v8a/$(basename "$library")" "$library"
(cd "$work" && zip -q -r package.apk lib)
zipalign -f -p 4 "$work/package.apk" "$work/aligned.apk"

keystore=${KEYSTORE:-}
if [ -z "$keystore" ]; then
    keystore=$work/once.keystore KEY_ALIAS=once KEYSTORE_PASSWORD=for-this-once
    export KEYSTORE_PASSWORD
    keytool -genkeypair -keystore "$keystore" -storepass:env KEYSTORE_PASSWORD -alias "$KEY_ALIAS" \
        -keyalg RSA -keysize 3072 -validity 10000 -dname "CN=for this once" 2>"$work/keytool" ||
        { cat "$work/keytool" >&2; exit 1; }
fi
: "${KEYSTORE_PASSWORD:?set it, and export it: the password of KEYSTORE}"
export KEYSTORE_PASSWORD
apksigner sign --ks "$keystore" --ks-key-alias "${KEY_ALIAS:?set it: the name of the key in KEYSTORE}" \
    --ks-pass env:KEYSTORE_PASSWORD --min-sdk-version 26 --out "$package" "$work/aligned.apk"
apksigner verify --min-sdk-version 26 "$package"
