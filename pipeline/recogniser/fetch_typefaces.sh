#!/bin/sh
# Fills fonts/ with the typefaces of typefaces.tsv and held-out.tsv and an English word list.
# Needs: apt-get (Debian 12), npm, and python3 with fonttools. Nothing is installed; nothing here
# is needed to use the weights.
set -eu
cd "$(dirname "$0")"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir -p fonts "$work/got"

packages() { grep -hv '^#' typefaces.tsv held-out.tsv | cut -f3 | sort -u; }

(
  cd "$work"
  apt-get download $(cd "$OLDPWD" && packages | grep -v '^@') wamerican
  for deb in *.deb; do dpkg -x "$deb" debian; done
  find debian -name '*.otf' -o -name '*.ttf' | while read -r file; do cp "$file" got/; done
  # From the list of common words; the capitalised ones serve as names.
  cp debian/usr/share/dict/american-english words
)
(cd "$work" && npm pack --silent $(cd "$OLDPWD" && packages | grep '^@') >/dev/null)
for archive in "$work"/*.tgz; do
  rm -rf "$work/package"
  tar -xzf "$archive" -C "$work"
  find "$work/package" -name '*.ttf' | while read -r file; do cp "$file" "$work/got/"; done
done

# Only the signs that are ever cut, so that the folder stays small enough to travel.
signs='U+0020-007E,U+00A3,U+00B7,U+00BC-00BE,U+00C6,U+00E6,U+0152,U+0153,U+017F,U+2010-2014,U+2018-201D,U+2020-2022'
signs="$signs,U+2605,U+2606,U+261C,U+261E,U+2660,U+2663,U+2665,U+2666,U+2720,U+2726,U+2740,U+2741,U+2766,U+2767,U+FB00-FB06,U+FFFF"
grep -hv '^#' typefaces.tsv held-out.tsv | cut -f2 | python3 -c '
import sys
from fontTools import subset

got, signs = sys.argv[1:]
for file in sys.stdin.read().split():
    subset.main([
        f"{got}/{file}", f"--output-file=fonts/{file}", "--no-hinting", "--layout-features=", "--notdef-outline",
        "--drop-tables+=GPOS,GSUB,GDEF,DSIG,FFTM", f"--unicodes={signs}",
    ])
' "$work/got" "$signs"
grep -E "^[A-Za-z]{1,14}$" "$work/words" >fonts/words.txt
echo "fonts/: $(ls fonts | wc -l) files, $(du -sh fonts | cut -f1)"
