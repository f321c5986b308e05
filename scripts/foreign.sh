# Sourced by scripts/package: what it takes to build the window for a kind of machine that this one is not.

# triplet ARCH : how Debian calls a kind of machine, by its name in Go.
triplet() { case $1 in amd64) echo x86_64-linux-gnu ;; arm64) echo aarch64-linux-gnu ;; esac; }

# foreign_libraries ARCH DIR : the libraries that the window's program is linked with, taken out of Debian's packages for that machine into
# DIR. Nothing of them is installed, and the machine's own list of packages stays as it is.
foreign_libraries() {
  local arch=$1 dir=$2 p
  [ ! -e "$dir/done" ] || return 0
  mkdir -p "$dir/state/lists/partial" "$dir/cache/archives/partial" "$dir/files"
  : >"$dir/status"
  local apt=(apt-get -qq -o "Dir::State=$dir/state" -o "Dir::State::status=$dir/status" -o "Dir::Cache=$dir/cache" -o "APT::Architecture=$arch" -o "APT::Architectures=$arch" -o APT::Sandbox::User=root)
  "${apt[@]}" update
  (cd "$dir/files" && "${apt[@]}" download libx11-6 libasound2 libxrandr2 libxxf86vm1 libxi6 libxcursor1 libxinerama1)
  for p in "$dir"/files/*.deb; do dpkg-deb -x "$p" "$dir/files"; done
  mkdir -p "$dir/lib"
  for p in "$dir/files/usr/lib/$(triplet "$arch")"/lib*.so.?; do ln -sf "$p" "$dir/lib/$(basename "${p%.*}")"; done
  touch "$dir/done"
}
