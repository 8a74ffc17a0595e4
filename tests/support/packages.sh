# SPDX-License-Identifier: GPL-3.0-or-later
# Sourced by tests/run and examples/run-demo: which Debian packages Wainbook needs for what, and how
# the missing ones are installed. Nothing is installed and no list is fetched when all are there.
# shellcheck shell=bash

# To build and install the program.
build_packages=(
  gcc libc6-dev meson ninja-build pkg-config
  libglib2.0-dev libgtk-4-dev libadwaita-1-dev libsqlite3-dev libjson-glib-dev libical-dev
  libgexiv2-dev libarchive-dev libcurl4-openssl-dev libxml2-dev libsecret-1-dev
  gettext itstool desktop-file-utils
)

# To show its window with every icon and letter; and libraries that it opens when they are first used,
# so that nothing that looks at the program itself finds them.
run_packages=(
  adwaita-icon-theme hicolor-icon-theme librsvg2-common fonts-cantarell fonts-dejavu-core
  libarchive13 libcurl4 libsecret-1-0 libxml2
)

# To run the tests: a display of their own, programs that look at windows and files, file servers.
test_packages=(
  xvfb xauth x11-utils xdotool openbox imagemagick dbus gnome-keyring at-spi2-core python3-gi
  gawk yelp-tools libxml2-utils appstream sqlite3 python3-jsonschema python3-icalendar
  libimage-exiftool-perl poppler-utils qpdf
  apache2-bin nginx libnginx-mod-http-dav-ext rclone
  openssh-server openssh-sftp-server openssh-client openssl libnss-wrapper python3-cryptography python3-swift
)

# Prints those of its arguments that are not installed.
missing_packages ()
{
  local package
  for package; do
    case $(dpkg-query -W -f='${Status}' "$package" 2>/dev/null) in
      'install ok installed') ;;
      *) echo "$package" ;;
    esac
  done
}

# Installs its arguments as root. Where nobody is there to start services (a container, a bare
# root), packages are kept from trying.
install_as_root ()
{
  local policy=/usr/sbin/policy-rc.d placed='' status=0

  if [ ! -e $policy ] && [ ! -d /run/systemd/system ]; then
    printf '#!/bin/sh\nexit 101\n' >$policy && chmod 755 $policy && placed=yes
  fi
  export DEBIAN_FRONTEND=noninteractive
  apt-get update -q && apt-get install -y -q --no-install-recommends "$@" || status=$?
  [ -z "$placed" ] || rm -f $policy
  return $status
}

# need_packages WHAT PACKAGE…: makes sure that the packages are there, or says what to do and
# returns with a failure. WHAT ends the sentence "Wainbook needs these packages to …".
need_packages ()
{
  local what=$1 answer
  local -a missing
  shift

  if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
    echo "This is not a Debian system, so nothing is installed. To $what, Wainbook needs what" \
         "Debian calls: $*"
    return 0
  fi

  mapfile -t missing < <(missing_packages "$@")
  [ ${#missing[@]} -gt 0 ] || return 0

  if [ "$(id -u)" -eq 0 ]; then
    echo "Installing what is needed to $what: ${missing[*]}"
    install_as_root "${missing[@]}" && return 0
    echo "Installing failed; the lines above say why." >&2
    return 1
  fi

  if [ -t 0 ] && command -v sudo >/dev/null; then
    echo "Wainbook needs these packages to $what:"
    echo "  ${missing[*]}"
    read -r -p "Install them now with sudo apt-get? [y/N] " answer
    case $answer in
      [yY]*)
        if sudo apt-get update -q \
           && sudo apt-get install -y -q --no-install-recommends "${missing[@]}"; then
          return 0
        fi
        echo "Installing failed; the lines above say why." >&2
        return 1
        ;;
    esac
  fi

  echo "These packages are missing, which Wainbook needs to $what. Install them as root with" >&2
  echo "  apt-get install --no-install-recommends ${missing[*]}" >&2
  echo "and start this again." >&2
  return 1
}
