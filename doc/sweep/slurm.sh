#!/usr/bin/env bash
# A sweep as a Slurm array of eight: sbatch doc/sweep/slurm.sh SCENARIO --vary KEY=a,b,c [more]
# Each task makes every eighth run into a file of its own. Once all are done: doc/sweep/join.sh sweep-*.csv > sweep.csv
#SBATCH --job-name=lowside-sweep
#SBATCH --array=1-8
#SBATCH --cpus-per-task=2
#SBATCH --time=01:00:00
set -euo pipefail
n=${SLURM_ARRAY_TASK_ID:?run by sbatch}
of=${SLURM_ARRAY_TASK_COUNT:?run by sbatch}
# A task that was stopped and is put back goes on where it was: rows that stand are kept.
"${LOWSIDE:-lowside}" sweep "$@" --shard "$n/$of" -o "sweep-$n.csv"
