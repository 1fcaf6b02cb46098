#!/bin/bash
# check.sh: is the project still fit for Android? On a machine without Google's SDK and NDK.
#
# Builds the standard library and the app for a phone with Debian's compiler, links them against
# nothing but the reviewed list of what a phone's system offers (system-symbols.txt), packs, and
# inspects the package (inspect.sh). Ends on "N passed, 0 failed".
#
# The drawing library, the unwinder and Slint's Java helper are stand-ins. What is made here
# can't run and is never given to anybody: see ../README.md.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../.." && pwd)
out=${ANDROID_CHECK_DIR:-$root/target/android}
llvm=19 target=aarch64-linux-android api=26
system=$out/system
mkdir -p "$system"

# --- What the check needs --------------------------------------------------------------------
# A Java that is there already serves as well as the one that Debian would choose.
java=default-jre-headless
if command -v java >/dev/null; then java=; fi
bash "$root/.ci/need" rustc-web cargo-web rust-web-src clang-$llvm lld-$llvm llvm-$llvm \
    aapt android-framework-res zipalign apksigner zip unzip $java

# --- The system's libraries, with the listed functions and no others -------------------------
clang=clang-$llvm ar=llvm-ar-$llvm
compile() { "$clang" --target=$target$api -w -O2 -fPIC -ffreestanding -fno-builtin -c "$1" -o "$2"; }
for library in libc libm libdl liblog libandroid libEGL libGLESv2; do
    awk -v library=$library '$1 == library { print "void " $2 "(void) {}" }' \
        "$here/system-symbols.txt" >"$system/$library.c"
    compile "$system/$library.c" "$system/$library.o"
    ld.lld-$llvm -shared -soname $library.so -o "$system/$library.so" "$system/$library.o"
done
for part in start unwind; do compile "$here/stand-ins/$part.c" "$system/$part.o"; done
rm -f "$system"/*.a
"$ar" rcs "$system/libunwind.a" "$system/unwind.o"
"$ar" rcs "$system/libc++_static.a"
"$ar" rcs "$system/libc++abi.a"

# --- The build -------------------------------------------------------------------------------
# Debian's compiler comes with the source of its own standard library. The switch that lets it
# build that source is for this check alone.
export PATH=/usr/bin:$PATH RUSTC=/usr/bin/rustc RUSTC_BOOTSTRAP=1
unset RUSTFLAGS RUSTUP_TOOLCHAIN
export CARGO_TARGET_DIR=$out/build CARGO_INCREMENTAL=0
cd "$root"
cargo fetch --locked --target $target

if [ ! -e "$out/skia.tar.gz" ] || [ "$here/stand-ins/skia.sh" -nt "$out/skia.tar.gz" ] || [ Cargo.lock -nt "$out/skia.tar.gz" ]; then
    version=$(awk '/^name = "skia-bindings"$/ { getline; split($0, part, "\""); print part[2] }' Cargo.lock)
    crate=$(ls -d "${CARGO_HOME:-$HOME/.cargo}"/registry/src/*/skia-bindings-"$version" | head -n 1)
    "$here/stand-ins/skia.sh" "$crate" "$out" "$clang" "$ar"
fi
export SKIA_BINARIES_URL=file://$out/skia.tar.gz
# Slint's build wants a Java compiler, the system's classes and a converter: stand-ins; the two
# archives are only looked for, never opened.
touch "$system/nothing.jar"
export ANDROID_JAR=$system/nothing.jar ANDROID_D8_JAR=$system/nothing.jar

export CARGO_TARGET_AARCH64_LINUX_ANDROID_LINKER=$clang
export CARGO_TARGET_AARCH64_LINUX_ANDROID_RUSTFLAGS="-Cpanic=abort -Lnative=$system
    -Clink-arg=--target=$target$api -Clink-arg=--ld-path=/usr/bin/ld.lld-$llvm -Clink-arg=-nostartfiles
    -Clink-arg=$system/start.o -Clink-arg=-Wl,-z,max-page-size=16384,--no-undefined"
JAVA_HOME=$here/stand-ins/jdk cargo rustc --locked --package strawblue-android --lib --profile phone-check \
    -Zbuild-std=std,panic_abort --target $target -- ${ANDROID_CHECK_RUSTC:-}

# --- The package -----------------------------------------------------------------------------
library=$CARGO_TARGET_DIR/$target/phone-check/libstrawblue_android.so
package=$out/never-ship.apk
env -u ANDROID_HOME -u KEYSTORE STRIP=llvm-strip-$llvm "$here/../package.sh" "$library" "$package"
READELF=llvm-readelf-$llvm NM=llvm-nm-$llvm "$here/inspect.sh" "$library" "$package"
