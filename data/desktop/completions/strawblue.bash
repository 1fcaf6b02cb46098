# Completion of strawblue for bash. Keys and questions are asked of the program itself.

# _strawblue_names COMMAND…: the names that this help lists, each at the beginning of a line.
_strawblue_names() {
    "${_strawblue_program:-strawblue}" "$@" 2>/dev/null | sed -n 's/^  \([a-z][a-z0-9.-]*\).*/\1/p'
}

_strawblue() {
    local IFS=$' \t\n'
    local _strawblue_program=${COMP_WORDS[0]} given=${COMP_WORDS[COMP_CWORD]}
    local before=${COMP_WORDS[COMP_CWORD - 1]} command="" action="" word at words="" keys=""
    COMPREPLY=()
    for ((at = 1; at < COMP_CWORD; at++)); do
        word=${COMP_WORDS[at]}
        case $word in
        --units | --language) ((at++)) ;;
        -*) ;;
        *) if [ -z "$command" ]; then command=$word; elif [ -z "$action" ]; then action=$word; fi ;;
        esac
    done
    case $before in
    --units)
        mapfile -t COMPREPLY < <(compgen -W "c-mm f-in f-mm c-in" -- "$given")
        return
        ;;
    --language)
        mapfile -t COMPREPLY < <(compgen -W "en de es fr pt-BR" -- "$given")
        return
        ;;
    # A value, or a file.
    = | -o)
        mapfile -t COMPREPLY < <(compgen -f -- "$given")
        return
        ;;
    esac
    case $given in
    -*)
        words="--units --language --json --help --version"
        [ "$command" = card ] && words+=" -o --letter --csv"
        mapfile -t COMPREPLY < <(compgen -W "$words" -- "$given")
        return
        ;;
    esac
    case $command in
    "") words="plan ask log card backup restore help" ;;
    help) words="plan ask log card backup restore json" ;;
    plan) keys=$(_strawblue_names help plan) ;;
    ask) if [ -z "$action" ]; then words=$(_strawblue_names ask); else keys=$(_strawblue_names ask "$action"); fi ;;
    log)
        case $action in
        "") words="list show new read trial step piece used undo remove back settle export import example" ;;
        new) keys="pieces drawing welder note $(_strawblue_names help plan)" ;;
        read) keys="piece part when run face away time note probe thermocouple black-spot ir-gun emissivity
            surface melted stayed colour colour-to look" ;;
        trial) keys="part outcome cooled name heat-number place photo probe thermocouple black-spot ir-gun
            emissivity surface melted stayed colour colour-to look" ;;
        show) keys="piece" ;;
        step) keys="piece step" ;;
        piece) keys="piece finished heat-numbers note" ;;
        used) keys="what amount" ;;
        settle) keys="keep" ;;
        esac
        ;;
    esac
    if [ -n "$keys" ]; then
        mapfile -t COMPREPLY < <(compgen -S = -W "$keys" -- "$given")
        # The value comes right behind it.
        type compopt &>/dev/null && compopt -o nospace 2>/dev/null
    elif [ -n "$words" ]; then
        mapfile -t COMPREPLY < <(compgen -W "$words" -- "$given")
    fi
    # Plans, cards, logs and the window take files too.
    case $command/$action in
    / | backup/* | restore/* | plan/* | card/* | log/new | log/import | log/export)
        mapfile -t -O "${#COMPREPLY[@]}" COMPREPLY < <(compgen -f -- "$given") ;;
    esac
}
complete -F _strawblue strawblue
