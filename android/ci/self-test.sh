#!/bin/bash
# self-test.sh: does the check fail where it must? Run check.sh first; this takes seconds.
#
# Spoils one thing after another and wants the check to complain, and for the right reason.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../.." && pwd)
out=${ANDROID_CHECK_DIR:-$root/target/android}
library=$out/build/aarch64-linux-android/phone-check/libstrawblue_android.so
[ -e "$library" ] || { echo "run check.sh first: there is no $library" >&2; exit 1; }
spoilt=$out/spoilt
rm -rf "$spoilt" && mkdir -p "$spoilt"

passed=0 failed=0
# fails_with WHAT COMPLAINT COMMAND…: COMMAND must fail, and say COMPLAINT.
fails_with() {
    local what=$1 complaint=$2 said
    shift 2
    if said=$("$@" 2>&1); then
        failed=$((failed + 1)) && echo "FAILED: $what goes unnoticed"
    elif grep -q -- "$complaint" <<<"$said"; then
        passed=$((passed + 1)) && echo "ok: $what is noticed: $(grep -m 1 -o -- "$complaint.*" <<<"$said")"
    else
        failed=$((failed + 1)) && printf 'FAILED: %s: another complaint than "%s":\n%s\n' "$what" "$complaint" "$said"
    fi
}

# The package with a changed manifest. $1: a sed command.
with_manifest() {
    sed "$1" "$here/../AndroidManifest.xml" >"$spoilt/AndroidManifest.xml"
    if cmp -s "$spoilt/AndroidManifest.xml" "$here/../AndroidManifest.xml"; then
        echo "the manifest did not change" && return 1
    fi
    env -u ANDROID_HOME -u KEYSTORE MANIFEST="$spoilt/AndroidManifest.xml" \
        "$here/../package.sh" "$library" "$spoilt/never-ship.apk" && "$here/inspect.sh" "$library" "$spoilt/never-ship.apk"
}

# The library from a changed entry file. $1: a sed command. The compiler is told to read the
# changed file in place of the kept one, so nothing else is built anew and no file is touched.
with_entry() {
    # The files that it names lie beside it.
    cp "$here/../src/"*.rs "$spoilt/"
    sed "$1" "$here/../src/lib.rs" >"$spoilt/lib.rs"
    if cmp -s "$spoilt/lib.rs" "$here/../src/lib.rs"; then echo "the entry file did not change" && return 1; fi
    cat >"$spoilt/rustc" <<'WRAPPER'
#!/bin/bash
# A compiler that reads lib.rs from beside itself for the phone's package.
given=("$@")
for at in "${!given[@]}"; do
    case ${given[at]} in
    android/src/lib.rs | */android/src/lib.rs) given[at]=$(dirname "$0")/lib.rs ;;
    esac
done
exec "${given[@]}"
WRAPPER
    chmod +x "$spoilt/rustc"
    RUSTC_WRAPPER=$spoilt/rustc ANDROID_CHECK_RUSTC="--cfg spoilt_$RANDOM" "$here/check.sh"
}

fails_with "a permission added" "FAILED: it asks for no permission" with_manifest \
    's|<uses-sdk|<uses-permission android:name="android.permission.INTERNET" /><uses-sdk|'
fails_with "a wrong library name" "FAILED: the library inside is the one that the manifest names" with_manifest \
    's|android:value="strawblue_android"|android:value="strawblue"|'
fails_with "a wrong entry point" "FAILED: the entry point that the manifest names" with_manifest \
    's|android:value="strawblue_on_create"|android:value="strawblue_made"|'
fails_with "another lowest API level" "FAILED: it installs from API level 26 on" with_manifest \
    's|minSdkVersion="26"|minSdkVersion="24"|'
fails_with "a restart on rotation" "FAILED: rotation, dark mode and font scale" with_manifest 's/|orientation|/|/'
fails_with "a missing entry point" "undefined symbol: android_main" with_entry '/no_mangle/d'
fails_with "a forbidden system function" "undefined symbol: renameat2" with_entry '
    s|^fn android_main(app: AndroidApp) {|&\n    unsafe extern "C" { fn renameat2() -> i32; }\n    let _ = unsafe { renameat2() };|'

echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
