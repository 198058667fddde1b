#!/usr/bin/env bash
# Makes a release: release.sh [FOLDER] builds the command and puts it, with completions, manual pages, licenses and the
# book, into an archive named by version and platform, beside its SHA-256. release.sh --twice [PROFILE] builds it in two
# folders and says whether both come out the same, byte for byte.
set -euo pipefail
cd "$(dirname "$0")"
version=$(sed -n 's/^version = "\(.*\)"/\1/p' Cargo.toml | head -1)

# Builds in a folder, with no trace of where that is: build FOLDER TARGET PROFILE
build() {
    local cargo_home=${CARGO_HOME:-$HOME/.cargo}
    local flags="--remap-path-prefix=$1=/wythe --remap-path-prefix=$2=/target --remap-path-prefix=$cargo_home=/cargo"
    (cd "$1" && CARGO_TARGET_DIR=$2 CARGO_INCREMENTAL=0 RUSTFLAGS=$flags cargo build --quiet --locked --profile "$3" -p wythe)
}

# The folder of a profile's programs: folder PROFILE
folder() {
    if [ "$1" = dev ]; then echo debug; else echo "$1"; fi
}

if [ "${1:-}" = --twice ]; then
    profile=${2:-dist}
    place=$(mktemp -d)
    trap 'rm -rf "$place"' EXIT
    for turn in one/plain two/somewhere_else; do
        mkdir -p "$place/$turn"
        git archive HEAD | tar -x -C "$place/$turn"
        build "$place/$turn" "$place/$turn/target" "$profile"
        cp "$place/$turn/target/$(folder "$profile")/wythe" "$place/$(dirname "$turn").program"
        rm -rf "$place/$turn/target"
    done
    sha256sum "$place/one.program" "$place/two.program" | sed "s|$place/||"
    cmp "$place/one.program" "$place/two.program" && echo "the same, byte for byte"
    exit
fi

out=$(mkdir -p "${1:-target/release-files}" && cd "${1:-target/release-files}" && pwd)
grep -q "^## $version\$" CHANGELOG.md || { echo "CHANGELOG.md says nothing of $version" >&2; exit 1; }
host=$(rustc -vV | sed -n 's/^host: //p')
name=wythe-$version-$host
target=${CARGO_TARGET_DIR:-$PWD/target}
build "$PWD" "$target" dist

rm -rf "${out:?}/$name" && mkdir -p "$out/$name/completions"
cp "$target/dist/wythe" README.md CHANGELOG.md LICENSE-MIT LICENSE-APACHE "$out/$name"
for shell in bash zsh fish powershell elvish; do
    "$out/$name/wythe" completions "$shell" > "$out/$name/completions/wythe.$shell"
done
"$out/$name/wythe" manual "$out/$name/man"
cargo run --quiet --locked -p wythe-tests --bin licenses > "$out/$name/LICENSES-OF-LIBRARIES.md"
cargo run --quiet --locked -p wythe-tests --bin book -- "$out/$name/book"
if command -v cargo-deny > /dev/null; then
    cargo deny --log-level error check
else
    echo "cargo-deny is not installed: advisories were not looked up" >&2
fi

# One time for all files, that of the last commit, so that the archive is the same whoever makes it.
time=$(git log -1 --format=%ct)
tar --sort=name --mtime="@$time" --owner=0 --group=0 --numeric-owner -C "$out" -cf - "$name" | gzip -n > "$out/$name.tar.gz"
rm -rf "${out:?}/$name"
(cd "$out" && sha256sum "$name.tar.gz" | tee "$name.tar.gz.sha256")
