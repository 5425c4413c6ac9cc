# bash completion for treadfold

_treadfold() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} command= i
  COMPREPLY=()
  for ((i = 1; i < COMP_CWORD; i++)); do
    case ${COMP_WORDS[i]} in plan | templates | recut | check | new | serve | schema) command=${COMP_WORDS[i]} && break ;; esac
  done

  case $before in
    --units) mapfile -t COMPREPLY < <(compgen -W "in mm cm" -- "$word") && return ;;
    --format) mapfile -t COMPREPLY < <(compgen -W "pdf plotter dxf svg" -- "$word") && return ;;
    --side) mapfile -t COMPREPLY < <(compgen -W "backing pile" -- "$word") && return ;;
    --left | --right) mapfile -t COMPREPLY < <(compgen -W "wall skirt open" -- "$word") && return ;;
    --way) mapfile -t COMPREPLY < <(compgen -W "as_planned laid_anew other_remnant smaller_join hidden_seam" -- "$word") && return ;;
    -o | --output | --site) mapfile -t COMPREPLY < <(compgen -d -- "$word") && return ;;
    --cut | --spoiled | --roll-length | --flaw | --remnant | --piece | --risers | --rise | --going | --width | --port) return ;;
  esac

  local options=
  case $command in
    "") options="plan templates recut check new serve schema --help --version" ;;
    plan) options="--output --json --no-fold --help" ;;
    templates) options="--output --piece --format --side --json --help" ;;
    recut) options="--cut --spoiled --roll-length --flaw --way --remnant --output --json --help" ;;
    check) options="--json --help" ;;
    new) options="--risers --rise --going --width --units --left --right --force --help" ;;
    serve) options="--port --lan --no-open --site --help" ;;
    schema) options="job plan fold recut --help" ;;
  esac
  if [[ $word == -* || -z $command || $command == schema ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$options" -- "$word")
  else
    mapfile -t COMPREPLY < <(compgen -f -X '!*.json' -- "$word" && compgen -d -- "$word")
  fi
}
complete -o filenames -F _treadfold treadfold
