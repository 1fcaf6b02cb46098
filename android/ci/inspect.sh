#!/bin/bash
# inspect.sh LIBRARY.so PACKAGE.apk: what must be true of Strawblue's library and package.
#
# Prints each assertion and ends on "N passed, M failed"; the exit status is 1 if any failed.
# Each tool's output is read whole before it is searched, so that no pipe breaks early.
set -euo pipefail
library=$1
package=$2
here=$(cd "$(dirname "$0")" && pwd)
readelf=${READELF:-llvm-readelf-19} nm=${NM:-llvm-nm-19}

passed=0 failed=0
# is WHAT COMMAND…: the assertion WHAT stands if COMMAND succeeds.
is() {
    local what=$1
    shift
    if "$@"; then
        passed=$((passed + 1)) && echo "ok: $what"
    else
        failed=$((failed + 1)) && echo "FAILED: $what"
    fi
}
has() { grep -q -- "$1" <<<"$2"; }
has_not() { ! has "$1" "$2"; }
none() {
    [ -z "$1" ] || { echo "    found: $1" | tr '\n' ' '; echo; false; }
}

elf=$("$readelf" --file-header --program-headers --dynamic-table --wide "$library")
defined=$("$nm" --dynamic --defined-only "$library")
undefined=$("$nm" --dynamic --undefined-only --format=just-symbols "$library" | sed 's/@.*//' | sort -u)
weak=$("$nm" --dynamic --undefined-only "$library" | awk '$1 == "w" { sub(/@.*/, "", $2); print $2 }' | sort -u)

is "the library is for 64-bit ARM" has 'Machine: *AArch64' "$elf"
is "Android's usual entry point is in it" has ' T ANativeActivity_onCreate$' "$defined"
needed=$(sed -n 's/.*(NEEDED).*\[\(.*\)\].*/\1/p' <<<"$elf" | sort -u)
offered=$(printf '%s.so\n' libandroid libc libdl libEGL libGLESv2 liblog libm | sort)
is "it needs no library but the system's" none "$(comm -23 <(echo "$needed") <(echo "$offered"))"
listed=$(awk '/^[^#]/ && $1 != "weak" { print $2 }' "$here/system-symbols.txt" | sort -u)
listed_weak=$(awk '$1 == "weak" { print $2 }' "$here/system-symbols.txt" | sort -u)
is "it calls nothing that is not in system-symbols.txt" \
    none "$(comm -23 <(comm -23 <(echo "$undefined") <(echo "$weak")) <(echo "$listed"))"
is "it can do without what it only asks for" \
    none "$(comm -23 <(comm -23 <(echo "$weak") <(echo "$listed")) <(echo "$listed_weak"))"
is "it is laid out for pages of 16 KiB" \
    none "$(awk '$1 == "LOAD" && $NF != "0x4000" { print $NF }' <<<"$elf")"

signature=$(apksigner verify --min-sdk-version 26 --verbose "$package" 2>&1 || true)
is "the package's signature verifies" has '^Verifies$' "$signature"
is "it is signed for new systems too (scheme 2)" has '(APK Signature Scheme v2): true' "$signature"
badging=$(aapt dump badging "$package")
is "the package is app.strawblue" has "^package: name='app.strawblue' " "$badging"
version=$(sed -n '/^\[package\]/,/^\[/ s/^version = "\(.*\)"/\1/p' "$here/../../Cargo.toml")
is "its version is the project's, $version" has " versionName='$version'" "$badging"
is "it installs from API level 26 on" has "^sdkVersion:'26'" "$badging"
is "it is made for API level 35" has "^targetSdkVersion:'35'" "$badging"
is "it opens by an activity of the system's own" has "^launchable-activity: name='android.app.NativeActivity'" "$badging"
is "it has an icon" has "^application: .* icon='res/" "$badging"
# `aapt` may know a permission by implication only; each kind counts.
permissions=$(aapt dump permissions "$package")
is "it asks for no permission, and so for no network" has_not 'permission' "$(sed '/^package: /d' <<<"$permissions")"

manifest=$(aapt dump xmltree "$package" AndroidManifest.xml)
named=$(grep -A1 'android.app.lib_name' <<<"$manifest" | sed -n 's/.*android:value(.*)="\([^"]*\)".*/\1/p')
inside=$(unzip -Z1 "$package" | sed -n 's,^lib/,,p')
is "the library inside is the one that the manifest names" [ "$inside" = "arm64-v8a/lib$named.so" ]
begins=$(grep -A1 'android.app.func_name' <<<"$manifest" | sed -n 's/.*android:value(.*)="\([^"]*\)".*/\1/p')
is "the entry point that the manifest names is in the library" has " T $begins\$" "$defined"
# Of android.content.res.Configuration: orientation 0x80, uiMode 0x200, screenSize 0x400, fontScale 0x40000000.
kept=$(sed -n 's/.*android:configChanges(.*)=(type 0x11)\(0x[0-9a-f]*\)$/\1/p' <<<"$manifest")
wanted=$((0x80 | 0x200 | 0x400 | 0x40000000))
is "rotation, dark mode and font scale don't restart it" [ "$((${kept:-0} & wanted))" = "$wanted" ]
is "it can't be debugged from outside" has_not 'android:debuggable' "$manifest"

echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
