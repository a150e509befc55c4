#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# one_cpu.sh COMMAND...: runs it on one processor that no other such command has, so that its threads take turns.
set -u
IFS=, read -r -a ranges < <(sed -n 's/^Cpus_allowed_list:[[:space:]]*//p' /proc/self/status)
for range in "${ranges[@]}"; do
  for ((cpu = ${range%-*}; cpu <= ${range#*-}; cpu++)); do
    exec {lock}>"tests/one_cpu.$cpu"
    flock -n "$lock" && exec taskset -c "$cpu" "$@"
  done
done
exec taskset -c "${ranges[0]%-*}" "$@"
