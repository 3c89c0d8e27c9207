#!/bin/sh
# Puts Tone Ladder among the programs of the user who runs this, or takes it away again.
#
#   ./install.sh            menu entry, icons, kinds of file, and the command toneladder
#   ./install.sh --remove   all of that away; plates and settings are not touched
#
# The program stays in this folder; after moving the folder, run this again.
set -eu

here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd -P)
program=$here/toneladder
data=${XDG_DATA_HOME:-$HOME/.local/share}
link=$HOME/.local/bin/toneladder

say() { printf '%s\n' "$*"; }

# A path as it stands in the Exec line of a menu entry.
quoted() {
  printf '"%s"' "$(printf %s "$1" | sed -e 's/\\/\\\\\\\\/g' -e 's/["`$]/\\\\&/g' -e 's/%/%%/g')"
}

# Desktops keep lists of what is installed; have those that are there made anew.
refresh() {
  if command -v update-mime-database >/dev/null; then update-mime-database "$data/mime"; fi
  if command -v update-desktop-database >/dev/null; then
    update-desktop-database "$data/applications"
  fi
  touch "$data/icons/hicolor"
}

install_files() {
  find share -type f | while IFS= read -r file; do
    mkdir -p "$data/$(dirname "${file#share/}")"
    cp "$file" "$data/${file#share/}"
  done
  for entry in share/applications/*.desktop; do
    while IFS= read -r line; do
      case $line in Exec=*) say "Exec=$(quoted "$program") %F" ;; *) say "$line" ;; esac
    done <"$entry" >"$data/${entry#share/}"
  done
}

remove_files() {
  find share -type f | while IFS= read -r file; do rm -f "$data/${file#share/}"; done
}

cd "$here"
case ${1:-} in
'')
  [ -x "$program" ] || { say "The program is not in this folder: $here" >&2 && exit 1; }
  install_files
  refresh
  mkdir -p "$(dirname "$link")"
  if [ -e "$link" ] && [ ! -L "$link" ]; then
    say "$link is something else and was left as it is; start $program instead." >&2
  else
    ln -sf "$program" "$link"
  fi
  say "Tone Ladder is installed for you. It is in the menu, and called toneladder in a terminal."
  ;;
--remove)
  remove_files
  mkdir -p "$data/mime/packages" "$data/applications" "$data/icons/hicolor"
  refresh
  if [ "$(readlink "$link" || true)" = "$program" ]; then rm "$link"; fi
  say "Tone Ladder is taken away. Plates, settings and this folder are still there."
  ;;
*)
  say "Use: ./install.sh, or ./install.sh --remove" >&2
  exit 2
  ;;
esac
