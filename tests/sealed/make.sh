#!/usr/bin/env bash
# Makes the sealed bag, its signature and the list of signers again: tests/sealed/make.sh BACKTACK
#
# The bag is what `new` starts, with one more file. The key that signs is made here and thrown away, so that the signature is
# another one each time: bag.digest and bag.key, which tests read, go with it.
set -euo pipefail
program=$(realpath "$1")
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"

"$program" new bag --kind bag
sed -i "s/ (change me)//" bag/*.toml
mkdir bag/private
printf '%064d\n' 0 > bag/private/salt.txt
cat > bag/more.toml <<'TOML'
[severity]
no-view = "off"
TOML
"$program" seal bag A --by "Maren Oake" --reason "First samples" | tail -n 1 > "$here/bag.digest"

unzip -p bag/revisions/A.sealed outer.txt > outer.txt
ssh-keygen -q -t ed25519 -N '' -C '' -f key
ssh-keygen -q -Y sign -f key -n backtack-revision outer.txt
read -r kind public _ < key.pub
cp bag/revisions/A.sealed "$here/bag.sealed"
cp outer.txt.sig "$here/bag.sig"
printf '# Who may sign revisions.\nmaren@oake.example namespaces="backtack-revision" %s %s\n' "$kind" "$public" > "$here/signers"
ssh-keygen -lf key.pub | cut -d" " -f2 > "$here/bag.key"
