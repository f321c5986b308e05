# Sourced by scripts/test and scripts/long: steps with their seconds, and work that goes on beside them.

kept=$(mktemp -d) # what goes on beside the steps writes here
names=() spent=() step_name= step_from=0
declare -A lane=() # process of each piece of work that goes on beside, by its name

# step NAME : ends the step before and begins this one.
step() {
  ends
  step_name=$1 step_from=$SECONDS
  printf '\n== %s (%s s)\n' "$1" "$SECONDS"
}

# ends : ends a step.
ends() {
  [ -z "$step_name" ] || { names+=("$step_name") spent+=($((SECONDS - step_from))); step_name=; }
}

# beside NAME COMMAND… : begins a command beside the steps, in a process group of its own.
beside() {
  local name=$1
  shift
  (
    set -m
    from=$SECONDS code=0
    (set -e; "$@") >"$kept/$name" 2>&1 &
    echo $! >"$kept/$name.pid"
    wait $! || code=$?
    echo $((SECONDS - from)) >"$kept/$name.seconds"
    echo $code >"$kept/$name.code"
  ) &
  lane[$name]=$!
}

# collect NAME : waits for what goes on beside, shows what it printed, and fails if it failed.
collect() {
  wait "${lane[$1]}" || true
  unset "lane[$1]"
  cat "$kept/$1"
  names+=("$1, beside the other steps") spent+=("$(cat "$kept/$1.seconds" 2>/dev/null || echo 0)")
  [ "$(cat "$kept/$1.code")" = 0 ] || { echo "$1 failed" >&2; return 1; }
}

# leave : the seconds of each step, whatever the end; what goes on beside ends with it, and says what it had come to.
leave() {
  local code=$? name i
  trap - EXIT
  for name in "${!lane[@]}"; do
    kill -TERM -- "-$(cat "$kept/$name.pid")" 2>/dev/null || true
    wait "${lane[$name]}" 2>/dev/null || true
    echo "-- $name was stopped; its last lines, those that begin with ok left out:" >&2
    grep -v '^ok' "$kept/$name" | tail -n 40 >&2 || true
  done
  [ $code = 0 ] || [ -z "$step_name" ] || echo "-- failed in: $step_name" >&2
  ends
  printf '\n'
  for i in "${!names[@]}"; do printf '%6d s  %s\n' "${spent[i]}" "${names[i]}"; done
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
    if [ -n "$part" ]; then go test "$@" "${cover[@]}" $some; else go test "$@" "${cover[@]}" $some -rapid.seed 20261125; fi
    [ -z "${profiles:-}" ] || { cat "$profiles.part" >>"$profiles"; rm "$profiles.part"; }
  done
}

# raced : the lines of scripts/raced; the window has no tests of its own.
raced() { grep -v -e '^#' -e internal/window scripts/raced; }

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
