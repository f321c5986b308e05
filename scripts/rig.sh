#!/bin/bash
# The virtual radio rig: boots a small guest under software emulation, plugs real HID radios in there, and runs the
# static propsoff against their device nodes. Needs no KVM, never touches this machine's boot.
#
#   scripts/rig.sh            every scenario (propsoff is built first)
#   scripts/rig.sh probe      only what needs no propsoff: what the kernel makes of the radios
#   scripts/rig.sh only A,B   the scenarios named
#   scripts/rig.sh window     the real window with a real radio: this machine's root, read-only, in the guest; needs
#                             what the window's build needs (a C compiler and the libraries that the README names)
#   scripts/rig.sh attended DIR [LANGUAGE]
#                             that window for a person, until `scripts/attended end DIR`: scripts/attended DIR 'COMMAND' …
#                             does commands, DIR/page.png is the screen, DIR/home what the program keeps (none: its first
#                             day). The radio is not plugged in yet. Mouse and keys (US) only: no fingers, no other size
#   scripts/rig.sh fetch      only gets what is needed (packages as root; the guest's kernel into the cache)
#
# Exit status: 0 every scenario held, 1 one failed, 2 the rig could not run.
# Environment: XDG_CACHE_HOME; RIG_LIMIT, seconds of the host until a boot is given up; RIG_KEEP=1 leaves the work folder;
# RIG_PROGRAM, a propsoff that is built already (static; with its window for window); RIG_OUT, where the window's results go.
set -euo pipefail
cd "$(dirname "$0")/.."

cache=${XDG_CACHE_HOME:-}
case $cache in /*) ;; *) cache=$HOME/.cache ;; esac
cache=$cache/propsoff-rig
work=
guest=
console=

say() { printf 'rig: %s\n' "$*" >&2; }
die() { say "$*"; exit 2; }

tidy() {
	if [ -n "$guest" ] && kill -0 "$guest" 2>/dev/null; then
		kill -9 "$guest" 2>/dev/null || true
		wait "$guest" 2>/dev/null || true
	fi
	if [ -n "$work" ] && [ -z "${RIG_KEEP:-}" ]; then rm -rf "$work"; fi
}
trap tidy EXIT
trap 'exit 2' INT TERM HUP

# packages: installs what is missing from Debian's own packages. As another user than root it only says the command.
packages() {
	local missing=() pair
	for pair in "$@"; do
		command -v "${pair%%=*}" >/dev/null || missing+=("${pair##*=}")
	done
	[ ${#missing[@]} -eq 0 ] && return
	if [ "$(id -u)" -ne 0 ]; then
		die "missing; run: sudo apt-get install --no-install-recommends ${missing[*]}"
	fi
	lists
	say "installing ${missing[*]}"
	DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "${missing[@]}" >&2 ||
		die "apt-get could not install ${missing[*]}"
}

# lists: the package lists are fetched when there are none.
lists() {
	if ! apt-cache show linux-image-amd64 >/dev/null 2>&1; then
		[ "$(id -u)" -eq 0 ] || die "no package lists; run: sudo apt-get update"
		apt-get update >&2 || die "apt-get update failed"
	fi
}

# kernel: fetches Debian's kernel package and unpacks it into the cache; nothing is installed.
kernel() {
	[ -s "$cache/kernel/vmlinuz" ] && return
	[ "$(uname -m)" = x86_64 ] || die "the guest is made for x86_64 machines"
	command -v dpkg-deb >/dev/null || die "dpkg-deb is missing: the guest's kernel comes as a Debian package"
	lists
	local name stage
	name=$(apt-cache depends linux-image-amd64 | sed -n 's/^ *Depends: \(linux-image-[0-9].*\)$/\1/p' | head -n 1)
	[ -n "$name" ] || die "apt-cache does not say which kernel linux-image-amd64 is"
	mkdir -p "$cache"
	stage=$(mktemp -d "$cache/stage.XXXXXX")
	say "fetching $name into the cache"
	if ! (cd "$stage" && apt-get -o APT::Sandbox::User=root download "$name" >&2 && dpkg-deb -x ./*.deb .); then
		# the lists may be older than the archive
		if [ "$(id -u)" -eq 0 ]; then apt-get update >&2 || true; fi
		name=$(apt-cache depends linux-image-amd64 | sed -n 's/^ *Depends: \(linux-image-[0-9].*\)$/\1/p' | head -n 1)
		rm -f "$stage"/*.deb
		(cd "$stage" && apt-get -o APT::Sandbox::User=root download "$name" >&2 && dpkg-deb -x ./*.deb .) ||
			{ rm -rf "$stage"; die "the package $name could not be fetched and unpacked"; }
	fi
	rm -f "$stage"/*.deb
	# newer Debian keeps modules under usr/lib
	local from=$stage/lib/modules
	[ -d "$from" ] || from=$stage/usr/lib/modules
	mkdir -p "$stage/kernel"
	mv "$from"/* "$stage/kernel/modules"
	mv "$stage"/boot/vmlinuz-* "$stage/kernel/vmlinuz"
	rm -rf "$cache/kernel"
	mv "$stage/kernel" "$cache/kernel"
	rm -rf "$stage"
}

fetch() {
	packages qemu-system-x86_64=qemu-system-x86
	kernel
}

# show: prints the finished lines of the console that were not printed yet.
show() {
	local total
	total=$(wc -l <"$console")
	[ "$total" -gt "$shown" ] || return 0
	sed -n "$((shown + 1)),${total}p" "$console" | tr -d "\r" | grep -v 'reboot: Power down' || true
	shown=$total
}

# How the guest's processors run. counted: its time is counted by its instructions, two nanoseconds each, and idle time is
# skipped, so a busy host makes a run longer and never wrong. quick: as fast as it goes, for the window, which
# draws with its own processor.
counted=(-accel tcg,thread=single -smp 1 -icount "shift=1,sleep=off")
quick=(-accel tcg,thread=multi -smp 2)

# boot LIMIT APPEND [emulator options…]: runs the guest, its console on standard output, and gives 0 or 1 by the guest's
# last line.
boot() {
	local limit=$1 append=$2
	shift 2
	began=$SECONDS shown=0
	: >"$console"
	qemu-system-x86_64 -nodefaults -no-user-config -display none -no-reboot \
		-machine pc -cpu max -m 1024 \
		-kernel "$cache/kernel/vmlinuz" -initrd "$work/initrd" \
		-append "console=ttyS0 rdinit=/init quiet loglevel=3 panic=-1 nokaslr mitigations=off random.trust_cpu=on $append" \
		-serial "file:$console" "$@" </dev/null &
	guest=$!
	while :; do
		local alive=1
		kill -0 "$guest" 2>/dev/null || alive=
		show
		[ -n "$alive" ] || break
		if [ $((SECONDS - began)) -ge "$limit" ]; then
			say "given up after $limit s"
			kill -9 "$guest" 2>/dev/null || true
			wait "$guest" 2>/dev/null || true
			guest=
			show
			tail -n 1 "$console" | tr -d '\r'
			echo
			return 1
		fi
		sleep 0.2
	done
	wait "$guest" 2>/dev/null || true
	guest=
	say "guest ran $((SECONDS - began)) s"
	tr -d '\r' <"$console" | grep -Eq '^RIG: [1-9][0-9]* ok, 0 failed$'
}

# build: the two static programs and the guest's first file system. Options are handed to `rig pack`.
build() {
	CGO_ENABLED=0 go build -o "$work/rig" ./scripts/rig
	"$work/rig" pack -modules "$cache/kernel/modules" -out "$work/initrd" "$@"
}

main() {
	local mode=${1:-all} only=
	case $mode in
	all | probe | window | fetch) ;;
	attended) [ -n "${2:-}" ] || die "attended: in which folder?" ;;
	only)
		only=${2:-}
		[ -n "$only" ] || die "only: which scenarios? Names with commas between them"
		mode=all
		;;
	*) die "unknown word \"$mode\"; say all, probe, only, window, attended or fetch" ;;
	esac
	command -v go >/dev/null || die "go is missing"
	fetch
	case $mode in window | attended) packages Xvfb=xvfb ;; esac
	[ "$mode" != fetch ] || return 0
	work=$(mktemp -d "${TMPDIR:-/tmp}/propsoff-rig.XXXXXX")
	console=$work/console
	case $mode in
	window)
		window "${2:-}"
		return
		;;
	attended)
		attended "$2" "${3:-en}"
		return
		;;
	esac
	local pack=()
	if [ "$mode" = all ]; then
		local program=${RIG_PROGRAM:-}
		if [ -z "$program" ]; then
			program=$work/propsoff
			CGO_ENABLED=0 go build -ldflags='-s -w' -o "$program" ./cmd/propsoff || die "the static program could not be built"
		fi
		pack=(-propsoff "$program")
	fi
	build "${pack[@]}"
	boot "${RIG_LIMIT:-600}" "rig.mode=$mode rig.only=$only" "${counted[@]}" || return 1
}

# withwindow OUT: the program with its window, for the guest to find in the folder that it shares.
withwindow() {
	if [ -n "${RIG_PROGRAM:-}" ]; then
		cp "$RIG_PROGRAM" "$1/propsoff"
	else
		CGO_ENABLED=1 go build -tags window -ldflags='-s -w' -o "$1/propsoff" ./cmd/propsoff ||
			die "the program with the window could not be built"
	fi
}

# sharing OUT LIMIT APPEND: boots with this machine's root, read-only, in the guest, and a folder for the results beside it.
sharing() {
	boot "$2" "$3" "${quick[@]}" \
		-virtfs "local,security_model=none,readonly=on,mount_tag=host,path=/,multidevs=remap" \
		-virtfs "local,security_model=none,mount_tag=out,path=$1"
}

window() {
	local out=${RIG_OUT:-$cache/window} only=$1
	mkdir -p "$out"
	rm -f "$out"/*.png "$out"/*.json "$out"/*.jsonl "$out"/*.take "$out"/*.yaml "$out/propsoff"
	[ "$only" = window-display ] || withwindow "$out"
	build -window
	local status=0
	sharing "$out" "${RIG_LIMIT:-240}" "rig.mode=window rig.only=$only" || status=1
	rm -f "$out/propsoff"
	say "pictures and records are in $out"
	return "$status"
}

# attended DIR LANGUAGE: a day, unless it is ended. What comes after the end is told by DIR/log, as scripts/attended looks there.
attended() {
	local out status=0
	mkdir -p "$1"
	out=$(cd "$1" && pwd)
	rm -f "$out"/{in,said,log,page.png}
	withwindow "$out"
	build -window
	sharing "$out" "${RIG_LIMIT:-86400}" "rig.mode=attended rig.language=$2" || status=1
	rm -f "$out/propsoff"
	cp "$console" "$out/log"
	say "what was kept is in $out/home"
	return "$status"
}

main "$@"
