#!/bin/bash
# build.sh [PACKAGE.apk]: the package that a phone can run, with Google's SDK and NDK.
#
# Needs ANDROID_HOME, `cargo ndk` and a JDK: see README.md. PROFILE=dev builds quicker.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
root=$(dirname "$here")
package=$(realpath -m "${1:-$root/target/strawblue.apk}")
profile=${PROFILE:-release}

: "${ANDROID_HOME:?set it to the folder of the Android SDK}"
last() { printf '%s\n' "$@" | sort -V | tail -n 1; }
export ANDROID_HOME
export ANDROID_NDK_HOME=${ANDROID_NDK_HOME:-$(last "$ANDROID_HOME"/ndk/*)}
# `cargo ndk` sets ANDROID_PLATFORM to the lowest system that is supported; Slint's build would
# take that for the system to compile against. The path goes before it.
export ANDROID_JAR=${ANDROID_JAR:-$(last "$ANDROID_HOME"/platforms/android-*/android.jar)}
for needed in "$ANDROID_NDK_HOME/toolchains" "$ANDROID_JAR"; do
    [ -e "$needed" ] || { echo "not there: $needed" >&2; exit 1; }
done
# NDKs before r28 make 4 KiB pages unless told otherwise.
export CARGO_TARGET_AARCH64_LINUX_ANDROID_RUSTFLAGS="-Clink-arg=-Wl,-z,max-page-size=16384"

cd "$root"
libraries=$root/target/android-libraries
cargo ndk --target arm64-v8a --platform 26 --output-dir "$libraries" \
    build --locked --package strawblue-android --profile "$profile"
mkdir -p "$(dirname "$package")"
"$here/package.sh" "$libraries/arm64-v8a/libstrawblue_android.so" "$package"
echo "$package"
