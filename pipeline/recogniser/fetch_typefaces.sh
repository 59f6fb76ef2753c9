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
packages | grep '^@' | while read -r package; do
  (cd "$work" && npm pack --silent "$package" >/dev/null)
done
for archive in "$work"/*.tgz; do
  rm -rf "$work/package"
  tar -xzf "$archive" -C "$work"
  find "$work/package" -name '*.ttf' | while read -r file; do cp "$file" "$work/got/"; done
done

# Only the letters that are ever cut, so that the folder stays small enough to travel.
grep -hv '^#' typefaces.tsv held-out.tsv | cut -f2 | while read -r file; do
  [ -f "$work/got/$file" ] || { echo "$file: not in its package" >&2; exit 1; }
  python3 -m fontTools.subset "$work/got/$file" --output-file="fonts/$file" --no-hinting \
    --layout-features='' --notdef-outline --drop-tables+=GPOS,GSUB,GDEF,DSIG,FFTM \
    --unicodes='U+0020-007E,U+00A3,U+00B7,U+00C6,U+00E6,U+0152,U+0153,U+017F,U+2010-2014,U+2018-201D,U+2020,U+2021,U+FB00-FB06,U+FFFF'
done
grep -E "^[A-Za-z]{1,14}$" "$work/words" >fonts/words.txt
echo "fonts/: $(ls fonts | wc -l) files, $(du -sh fonts | cut -f1)"
