#!/bin/bash
# processor.sh: does a phone's processor give the same figures? Without a phone.
#
# Builds everything below the window for 64-bit ARM with Debian's compiler and its source of the
# standard library, runs the published checks and the working ranges under an emulator of user
# programs (Debian's qemu-user), and compares what both processors print, byte for byte.
# The C library is glibc here and bionic on a phone; what is shown is the processor's arithmetic.
# Ends on "N passed, 0 failed".
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../.." && pwd)
out=${ANDROID_CHECK_DIR:-$root/target/android}
target=aarch64-unknown-linux-gnu
mkdir -p "$out/figures"

bash "$root/.ci/need" rustc-web cargo-web rust-web-src qemu-user gcc-aarch64-linux-gnu libc6-dev-arm64-cross

cd "$root"
# What this machine's processor prints, by the builds that the tests and the smoke run have made.
figures=$out/figures
STRAWBLUE_FIGURES=$figures/native.tsv cargo test --quiet --locked --features testing --test engine -- printed:: >/dev/null
cargo test --quiet --no-run --locked --features testing --test cli
native=$(realpath "${CARGO_TARGET_DIR:-target}")/debug/strawblue

# Optimised a little, since an emulator is slow; Rust's floating point does not depend on it.
export PATH=/usr/bin:$PATH RUSTC=/usr/bin/rustc RUSTC_BOOTSTRAP=1
unset RUSTFLAGS RUSTUP_TOOLCHAIN
export CARGO_TARGET_DIR=$out/build CARGO_INCREMENTAL=0 CARGO_PROFILE_PHONE_CHECK_OPT_LEVEL=1
export CARGO_TARGET_AARCH64_UNKNOWN_LINUX_GNU_LINKER=aarch64-linux-gnu-gcc
export CARGO_TARGET_AARCH64_UNKNOWN_LINUX_GNU_RUNNER="qemu-aarch64 -L /usr/aarch64-linux-gnu"

passed=0 failed=0
ok() { passed=$((passed + 1)) && echo "ok: $1"; }
no() { failed=$((failed + 1)) && echo "FAILED: $1"; }

# phone ARGUMENTS…: cargo, for the phone's processor.
phone() { cargo "$1" --locked --profile phone-check --no-default-features -Zbuild-std --target $target "${@:2}"; }

# The program comes with its tests: a build of it alone would compile the libraries once more.
phone test --quiet --no-run --test engine --test plan

# The published checks, and each working range that is kept.
for checks in "engine published::" "engine weld_order::" "plan windows::"; do
    # shellcheck disable=SC2086 # the test program and its filter
    set -- $checks
    if phone test --quiet --test "$1" -- "$2" >"$figures/said" 2>&1 && grep -qE '^test result: ok\. [1-9]' "$figures/said"; then
        ok "$(grep -oE '[0-9]+ passed' "$figures/said" | head -n 1) of $checks on $target"
    else
        no "$checks on $target" && tail -n 40 "$figures/said"
    fi
done

# Every figure of the published checks, as printed.
STRAWBLUE_FIGURES=$figures/phone.tsv phone test --quiet --test engine -- printed:: >/dev/null
lines=$(wc -l <"$figures/native.tsv")
if cmp "$figures/native.tsv" "$figures/phone.tsv"; then
    ok "$lines lines of printed figures are the same"
else
    no "of $lines lines of printed figures some differ"
    diff "$figures/native.tsv" "$figures/phone.tsv" | head -n 20
fi

# Whole plans, with their heat cycles, in both unit systems.
plans() {
    "$@" plan data/demo.ron
    "$@" plan data/demo.ron --json
    "$@" plan data/demo.ron --units f-in
}
plans "$native" >"$figures/native.txt"
plans qemu-aarch64 -L /usr/aarch64-linux-gnu "$CARGO_TARGET_DIR/$target/phone-check/strawblue" >"$figures/phone.txt"
if cmp "$figures/native.txt" "$figures/phone.txt"; then
    ok "$(wc -l <"$figures/native.txt") lines of plan and heat cycle are the same"
else
    no "plan or heat cycle differ"
    diff "$figures/native.txt" "$figures/phone.txt" | head -n 20
fi
echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
