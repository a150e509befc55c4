#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# deb.sh ARCHIVE FOLDER: Debian packages in FOLDER, from an archive that `make dist` made.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
archive=$(realpath "${1:?usage: deb.sh ARCHIVE FOLDER}")
mkdir -p "${2:?usage: deb.sh ARCHIVE FOLDER}"
cd "$2"
rm -rf source && mkdir source
tar -xf "$archive" --strip-components=1 -C source
cp -r "$here/debian" source/debian
chmod +x source/debian/rules
( cd source && dpkg-buildpackage -us -uc -b -d )
rm -rf source
