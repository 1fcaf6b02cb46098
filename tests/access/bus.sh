#!/bin/bash
# bus.sh PROGRAM: the main job by a screen reader's tree (reader.py), on a desktop of its own: a
# screen that nobody looks at, a session bus, the accessibility bus.
#
# Ends on "N passed, 0 failed". Installs Debian's accessibility bus and its reader's library.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
program=$1

bash "$here/../../.ci/need" at-spi2-core gir1.2-atspi-2.0 python3-gi dbus libglib2.0-bin xvfb xauth xdotool

home=$(mktemp -d)
trap 'rm -rf "$home"' EXIT
export HOME=$home XDG_DATA_HOME=$home/data XDG_CONFIG_HOME=$home/config XDG_RUNTIME_DIR=$home/run LC_ALL=C.UTF-8
mkdir -m 700 "$XDG_RUNTIME_DIR"
unset WAYLAND_DISPLAY WAYLAND_SOCKET

# shellcheck disable=SC2016 # expanded inside
dbus-run-session -- xvfb-run -a bash -c '
    /usr/libexec/at-spi-bus-launcher --launch-immediately & bus=$!
    trap "kill $bus ${pid:-} 2>/dev/null || true" EXIT
    for property in IsEnabled ScreenReaderEnabled; do
        gdbus call --session --dest org.a11y.Bus --object-path /org/a11y/bus \
            --method org.freedesktop.DBus.Properties.Set org.a11y.Status $property "<true>" >/dev/null
    done
    "$1" & pid=$!
    /usr/bin/python3 "$2"
' reader "$program" "$here/reader.py" 2> >(grep -vE "dbus-daemon|dbind-WARNING|^$|SpiRegistry" >&2)
