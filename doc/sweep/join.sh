#!/usr/bin/env sh
# Puts the shards of a sweep together, by their first column, under one head: doc/sweep/join.sh sweep-*.csv > sweep.csv
set -eu
head -qn 1 "$@" | sort -u | { read -r head && ! read -r other && echo "$head"; } || { echo "the shards have different heads" >&2; exit 1; }
tail -qn +2 "$@" | sort -t, -n -k1,1
