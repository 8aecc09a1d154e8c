#!/usr/bin/env bash
# Processor time of whole commands on the whale: an older commit against this tree, in turns on one machine.
#
#	testdata/bench/answers.sh [COMMIT [RUNS]]
#
# COMMIT is 38b2fb2 where none is named; RUNS (5) is how often each is run, of which the least counts. The design is the
# older commit's, so that both answer for the same launcher.
set -euo pipefail
cd "$(dirname "$0")/../.."
tree=$PWD
commit=${1:-38b2fb2} runs=${2:-5}
work=$(mktemp -d)
trap 'git -C "$tree" worktree remove --force "$work/older"; rm -rf "$work"' EXIT
git worktree add -q --detach "$work/older" "$commit"
(cd "$work/older" && go build -o "$work/old" ./cmd/puffproof)
go build -o "$work/new" ./cmd/puffproof
cp "$work/older/testdata/designs/whale.toml" "$work/whale.toml"
cd "$work"
TIMEFORMAT='%U %R'
# least PROGRAM COMMAND...: the least processor time of the runs, and the wall time of that one.
least() {
    for _ in $(seq "$runs"); do
        { time "./$1" "${@:2}" >/dev/null 2>&1 || true; } 2>&1
    done | sort -n | head -n 1
}
printf '%-38s %9s %9s %7s %9s\n' command "$commit, s" 'now, s' ratio 'wall, s'
for command in 'shot whale.toml' 'check whale.toml' 'faults whale.toml' 'setpoint whale.toml' 'vent whale.toml' \
    'dossier whale.toml --force -o f.html'; do
    # shellcheck disable=SC2086
    read -r before _ < <(least old $command)
    # shellcheck disable=SC2086
    read -r after wall < <(least new $command)
    awk -v c="$command" -v b="$before" -v a="$after" -v w="$wall" \
        'BEGIN { printf "%-38s %9.2f %9.2f %7s %9.2f\n", c, b, a, (a > 0 ? sprintf("%.1f", b/a) : "-"), w }'
done
