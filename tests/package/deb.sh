#!/bin/bash
# deb.sh: is the Debian package whole, and does what it installs start on a bare system?
#
#   bash tests/package/deb.sh [PROGRAM]   PROGRAM: a built one; target/debug/strawblue if not given
#
# Packs the program as it is, without building it anew; validates each file that a desktop reads;
# installs the package, and nothing else, into a fresh Debian of this machine's release; opens the
# window there on a screen that nobody looks at; asks the command line; and takes the package out
# again. Needs root, and the mirror that apt knows. Ends on "package: all passed".
set -euo pipefail
cd "$(dirname "$0")/../.."
target=$PWD/${CARGO_TARGET_DIR:-target}
case ${CARGO_TARGET_DIR:-} in /*) target=$CARGO_TARGET_DIR ;; esac
program=$(realpath "${1:-$target/debug/strawblue}")
tools=${STRAWBLUE_TOOLS:-$HOME/.cache/strawblue-tools}
cargo_deb=3.8.0
work=$(mktemp -d)
unset DISPLAY WAYLAND_DISPLAY WAYLAND_SOCKET
screen=""
trap '[ -z "$screen" ] || kill "$screen" 2>/dev/null || true; rm -rf --one-file-system "$work"' EXIT

fail() {
    echo "FAILED: $*"
    exit 1
}

# --- What the check needs ----------------------------------------------------------------------
bash .ci/need appstream binutils desktop-file-utils dpkg-dev fish libglib2.0-bin man-db mmdebstrap \
    shared-mime-info xdotool xvfb zsh
PATH=$tools/bin:$PATH
if ! cargo deb --version 2>/dev/null | grep -qF "$cargo_deb"; then
    # Kept between runs where a machine is kept. The quickest build, since it runs for seconds.
    CARGO_PROFILE_RELEASE_OPT_LEVEL=0 CARGO_PROFILE_RELEASE_LTO=off CARGO_PROFILE_RELEASE_CODEGEN_UNITS=16 \
        cargo install --quiet --locked --version "$cargo_deb" --no-default-features --features gzip \
        --root "$tools" --target-dir "$target/tools" cargo-deb
    rm -rf "$target/tools"
fi

# --- The package ---------------------------------------------------------------------------------
mkdir -p "$work/target/release"
strip -o "$work/target/release/strawblue" "$program"
deb=$work/strawblue.deb
CARGO_TARGET_DIR=$work/target cargo deb --quiet --no-build --no-strip --locked --fast -o "$deb" >/dev/null
rm -rf "$work/target"
root=$work/root
dpkg-deb -R "$deb" "$root"
for file in bin/strawblue share/applications/strawblue.desktop share/man/man1/strawblue.1.gz \
    share/icons/hicolor/scalable/apps/strawblue.svg share/icons/hicolor/48x48/apps/strawblue.png \
    share/metainfo/alt.strawblue.strawblue.metainfo.xml share/mime/packages/strawblue.xml \
    share/bash-completion/completions/strawblue share/fish/vendor_completions.d/strawblue.fish \
    share/zsh/vendor-completions/_strawblue share/doc/strawblue/copyright; do
    [ -s "$root/usr/$file" ] || fail "the package has no /usr/$file"
done
grep -q '^Depends: .*libc6' "$root/DEBIAN/control" || fail "the package depends on no libc6"
if find "$root/usr" \( -perm /022 -o -not -user root \) | grep .; then fail "anybody may write these"; fi
echo "ok: packed, $(du -sh "$deb" | cut -f 1) of a debug program"

# --- What a desktop reads ------------------------------------------------------------------------
share=$root/usr/share
desktop-file-validate "$share/applications/strawblue.desktop"
if ! appstreamcli validate --no-net "$share/metainfo/"*.xml >"$work/said"; then
    cat "$work/said"
    fail "AppStream metadata"
fi
said=$(LC_ALL=C.UTF-8 man --warnings -E UTF-8 -l -Tutf8 -Z "$share/man/man1/strawblue.1.gz" 2>&1 >/dev/null)
[ -z "$said" ] || fail "man page: $said"
bash -n "$share/bash-completion/completions/strawblue"
fish --no-execute "$share/fish/vendor_completions.d/strawblue.fish"
zsh -n "$share/zsh/vendor-completions/_strawblue"
fish=$(HOME=$work PATH=$root/usr/bin:$PATH fish --no-config \
    -c "source $share/fish/vendor_completions.d/strawblue.fish; complete -C 'strawblue ask crayon-p'")
[[ $fish = crayon-pair* ]] || fail "fish completes \"$fish\""

# The desktop tells our files from others that end in .ron too.
XDG_DATA_DIRS=$share update-mime-database "$share/mime"
mime() {
    XDG_DATA_DIRS=$share:/usr/share HOME=$work gio info -a standard::content-type "$1" |
        sed -n 's/.*standard::content-type: //p'
}
printf '(window: (width: 3, schema: "x"))\n' >"$work/other.ron"
for pair in data/demo.ron=application/x-strawblue-job data/demo_log.ron=application/x-strawblue-log; do
    [ "$(mime "${pair%=*}")" = "${pair#*=}" ] || fail "${pair%=*} is taken for $(mime "${pair%=*}")"
done
[[ $(mime "$work/other.ron") != *strawblue* ]] || fail "another program's file is taken for ours"
echo "ok: menu entry, AppStream, man page, completions, kinds of files"

# --- On a bare system ------------------------------------------------------------------------------
# Only what the package itself asks for is installed beside it. A kept system is as good as a fresh
# one until the release changes: it is made of the release alone.
release=$(. /etc/os-release && echo "$VERSION_CODENAME")
base=$tools/debian-$release.tar
if [ ! -s "$base" ]; then
    mkdir -p "$tools"
    mmdebstrap --quiet --variant=minbase "$release" "$work/bare.tar" || fail "no bare system could be made"
    mv "$work/bare.tar" "$base"
fi
bare=$work/bare
mkdir "$bare"
tar -C "$bare" --exclude='./dev/*' -xf "$base"
cp "$deb" "$bare/tmp/"
mknod -m 666 "$bare/dev/null" c 1 3 2>/dev/null || touch "$bare/dev/null"
# Packages must not start services here.
printf '#!/bin/sh\nexit 101\n' >"$bare/usr/sbin/policy-rc.d"
chmod 755 "$bare/usr/sbin/policy-rc.d"
cp /etc/resolv.conf "$bare/etc/resolv.conf"
cp -r /etc/apt/apt.conf.d/. "$bare/etc/apt/apt.conf.d/"
inside() { env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/root LC_ALL=C.UTF-8 DISPLAY="${DISPLAY:-}" chroot "$bare" "$@"; }
inside apt-get update -qq
inside env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends /tmp/strawblue.deb \
    >"$work/apt" 2>&1 || { cat "$work/apt"; fail "the package can't be installed"; }
inside strawblue --version | grep -qx "strawblue $(sed -n 's/^version = "\(.*\)"/\1/p' Cargo.toml | head -n 1)"
cp data/demo.ron "$bare/tmp/"
inside strawblue plan /tmp/demo.ron | grep -q '^Minimum preheat: ' || fail "no plan"

# The screen is outside, and reached by a name that no file stands for, so that no library of it helps.
exec 3<>"$work/display"
Xvfb -displayfd 3 -ac -screen 0 1280x1024x24 >/dev/null 2>&1 &
screen=$!
for _ in $(seq 50); do
    [ ! -s "$work/display" ] || break
    sleep 0.1
done
DISPLAY=:$(head -n 1 "$work/display")
export DISPLAY
inside bash -c 'echo $$ >/tmp/window && exec strawblue' >"$work/window" 2>&1 &
for _ in $(seq 50); do
    [ ! -s "$bare/tmp/window" ] || break
    sleep 0.1
done
window=$(cat "$bare/tmp/window")
if ! timeout 30 xdotool search --sync --onlyvisible --pid "$window" >/dev/null; then
    cat "$work/window"
    fail "no window"
fi
sleep 2
kill -0 "$window" || { cat "$work/window"; fail "the window went away"; }
# The first minute by keyboard: past language and units to the example, which is then the job that is kept.
xdotool windowfocus --sync "$(xdotool search --onlyvisible --pid "$window" | tail -n 1)"
xdotool key --delay 100 Tab Tab Tab Return
session=$bare/root/.local/share/strawblue/session.ron
for _ in $(seq 50); do
    ! grep -q 34CrMo4 "$session" 2>/dev/null || break
    sleep 0.1
done
grep -q 34CrMo4 "$session" 2>/dev/null || fail "the first start does not lead to the example"
kill "$window"
[ -d "$bare/root/.local/share/strawblue" ] ||
    fail "nothing is kept where the man page says"
echo "ok: installed into a bare $release with $(grep -c '^Setting up' "$work/apt") packages; the window opened and led to the example"

inside apt-get purge -y -qq strawblue >/dev/null 2>&1
left=$(find "$bare/usr" -name '*strawblue*')
[ -z "$left" ] || fail "left behind: $left"
[ -d "$bare/root/.local/share/strawblue" ] || fail "what a person keeps went with the package"
echo "package: all passed, $SECONDS s"
