#!/bin/sh
# Builds shots.c against SUNDIALS (Debian: apt-get install gcc libsundials-dev) and
# prints the comparison at equal achieved error. Run it from anywhere; it takes
# about ten seconds.
set -e
here=$(cd "$(dirname "$0")" && pwd)
bin=$(mktemp -d)
trap 'rm -rf "$bin"' EXIT
gcc -O3 -march=native -ffp-contract=off -Wall -o "$bin/shots" "$here/shots.c" \
	-lsundials_arkode -lsundials_cvode -lsundials_nvecserial -lsundials_sunlinsoldense \
	-lsundials_sunmatrixdense -lsundials_sunnonlinsolfixedpoint -lm
cd "$here/../.."
echo "$(date +%F); $(sed -n 's/^model name[^:]*: //p' /proc/cpuinfo | head -1); $(go version); $(gcc -dumpfullversion); SUNDIALS $(sed -n 's/#define SUNDIALS_VERSION "\(.*\)"/\1/p' /usr/include/sundials/sundials_config.h)"
go run ./testdata/bench/compare "$bin/shots"
