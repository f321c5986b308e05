# Sourced by scripts/test and scripts/long: steps with their seconds, and lanes of steps that go on beside one another.

kept=$(mktemp -d) # what lanes print, and the seconds of what has ended
step_name= step_from=0
declare -A lane=() # process of each lane, by its name

# step NAME : ends the step before, of this lane, and begins this one.
step() {
  ends
  step_name=$1 step_from=$SECONDS
  printf '\n== %s (%s s)\n' "$1" "$SECONDS"
}

# ends : ends a step.
ends() {
  [ -z "$step_name" ] || printf '%6d s  %s\n' $((SECONDS - step_from)) "$step_name" >>"$kept/spent"
  step_name=
}

# beside NAME COMMAND… : ends a step, and begins a lane, in a process group of its own.
beside() {
  local name=$1
  shift
  ends
  (
    set -m
    code=0
    (
      step_name=
      trap '[ $? = 0 ] || echo "-- ended in: $step_name" >&2; ends' EXIT
      set -e
      "$@"
    ) >"$kept/$name" 2>&1 &
    echo $! >"$kept/$name.pid"
    wait $! || code=$?
    echo $code >"$kept/$name.code"
  ) &
  lane[$name]=$!
}

# collect : waits for all lanes, shows what each has printed as soon as it ends, and fails with the first that fails.
collect() {
  local name
  while [ ${#lane[@]} -gt 0 ]; do
    wait -n "${lane[@]}" || true
    for name in "${!lane[@]}"; do
      [ -e "$kept/$name.code" ] || continue
      wait "${lane[$name]}" || true
      unset "lane[$name]"
      cat "$kept/$name"
      [ "$(cat "$kept/$name.code")" = 0 ] || { echo "-- failed: $name" >&2; return 1; }
    done
  done
}

# leave : the seconds of each step, whatever the end; lanes end with it, and say what they had come to.
leave() {
  local code=$? name
  trap - EXIT
  for name in "${!lane[@]}"; do
    kill -TERM -- "-$(cat "$kept/$name.pid")" 2>/dev/null || true
    wait "${lane[$name]}" 2>/dev/null || true
    echo "-- $name was stopped; its last lines, those that begin with ok left out:" >&2
    grep -v '^ok' "$kept/$name" | tail -n 40 >&2 || true
  done
  [ $code = 0 ] || [ -z "$step_name" ] || echo "-- failed in: $step_name" >&2
  ends
  printf '\nthe seconds of each step, in the order in which they ended:\n'
  cat "$kept/spent" 2>/dev/null || true
  printf '%6d s  in all\n' "$SECONDS"
  rm -rf "$kept"
  exit $code
}
trap leave EXIT
trap 'exit 130' INT
trap 'exit 143' TERM
trap 'exit 129' HUP

# Random tests go with one seed, so that the answer tells what a change did; scripts/wild goes on with others.
all=$(go list ./...)
random=$(go list -f '{{.ImportPath}} {{.TestImports}} {{.XTestImports}}' $all | grep pgregory.net/rapid | cut -d ' ' -f 1)

# tests PACKAGES FLAGS… : those without and those with random tests. Where profiles=FILE is set, coverage profiles are added to that file.
tests() {
  local packages=$1 part
  shift
  for part in -v ''; do
    local some cover=()
    some=$(grep $part -xF "$random" <<<"$packages" || true)
    [ -n "$some" ] || continue
    [ -z "${profiles:-}" ] || cover=(-coverprofile "$profiles.part")
    if [ -n "$part" ]; then go test -timeout 30m "$@" "${cover[@]}" $some; else go test -timeout 30m "$@" "${cover[@]}" $some -rapid.seed 20261125; fi
    [ -z "${profiles:-}" ] || { cat "$profiles.part" >>"$profiles"; rm "$profiles.part"; }
  done
}

# raced : the lines of scripts/raced; the window and the program's side of a page have no tests of their own.
raced() { grep -v -e '^#' -e internal/window -e internal/pageside scripts/raced; }

# fuzzed TIMES : every fuzz target, so many inputs each. All of a failure is shown: the input that Go keeps stands in a clone that may be gone
# tomorrow. Counted, not timed: at the end of its time Go's fuzzer now and then fails by itself ("context deadline exceeded").
fuzzed() {
  local at f
  for at in $(grep -rl --include='*_test.go' '^func Fuzz' . | xargs -n1 dirname | sort -u); do
    for f in $(grep -h '^func Fuzz' "$at"/*_test.go | sed -E 's/^func (Fuzz[A-Za-z0-9_]*).*/\1/'); do
      go test -run '^$' -fuzz "^$f\$" -fuzztime "$1x" -fuzzminimizetime 50x "$at" >"$kept/fuzz" 2>&1 || { cat "$kept/fuzz"; return 1; }
      echo "fuzz target $f of $at"
      grep ' execs: ' "$kept/fuzz" | tail -n 1
      tail -n 1 "$kept/fuzz"
    done
  done
}
