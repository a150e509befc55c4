# SPDX-License-Identifier: GPL-3.0-or-later
# Completion of benchrule(1) for bash: its options and design sheets (*.sheet).
# shellcheck shell=bash

_benchrule ()
{
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]}
  local options='-c -i -o --color= --jobs= --allow-files --output= --help --version' name
  COMPREPLY=()
  # "=" is a word of its own for bash: --output = json
  if [[ $before == = ]]; then
    before=${COMP_WORDS[COMP_CWORD - 2]}=
  elif [[ $word == = ]]; then
    before+== word=
  fi
  case $before in
    -c) return ;;
    -o | --output | --output=)
      mapfile -t COMPREPLY < <(compgen -W 'text json' -- "$word")
      return ;;
    --color=)
      mapfile -t COMPREPLY < <(compgen -W 'auto always never' -- "$word")
      return ;;
  esac
  if [[ $word == -* ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$options" -- "$word")
    [[ ${COMPREPLY[*]} != *= ]] || compopt -o nospace 2>/dev/null
    return
  fi
  while IFS= read -r name; do
    COMPREPLY+=("$name")
  done < <(compgen -f -X '!*.sheet' -- "$word"; compgen -d -S / -- "$word")
  compopt -o filenames 2>/dev/null
}

complete -F _benchrule benchrule
