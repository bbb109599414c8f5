#!/bin/sh
# Checks every parts file of a folder, those of its own folders included, for any CI.
#
#   sh check.sh [folder] [sarif-file]
#
# The folder is the current one if left out. What was found is printed, and written
# as SARIF 2.1.0 to holdfast.sarif in that folder, or to the file that is named.
# HOLDFAST is the command to run where "holdfast" is not on the path, such as
# HOLDFAST='npx holdfast'. The exit code is that of holdfast check: 0 where all is
# kept, 1 where a limit is broken or a plan has changed, 2 for a bad file.
set -eu

folder=${1:-.}
sarif=${2:-$folder/holdfast.sarif}
command=${HOLDFAST:-holdfast}

if [ ! -d "$folder" ]; then
  echo "check.sh: there is no folder $folder" >&2
  exit 2
fi

# The pattern is in quotation marks, because not every shell knows "**"; the
# command is not, so that it may be of several words.
exec $command check --sarif "$sarif" "$folder/**/*.{yaml,yml}"
