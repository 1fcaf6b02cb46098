#compdef strawblue
# Completion of strawblue for zsh. Keys and questions are asked of the program itself.

# _strawblue_names COMMAND…: the names that this help lists, each at the beginning of a line.
_strawblue_names() {
    strawblue "$@" 2>/dev/null | sed -n 's/^  \([a-z][a-z0-9.-]*\).*/\1/p'
}

_strawblue_keys() {
    local -a keys
    keys=(${(f)"$(_strawblue_names "$@")"})
    compset -P '*=' && { _files; return }
    compadd -S = -a keys
}

_strawblue() {
    local context state state_descr line
    typeset -A opt_args
    local -a options
    options=(
        '--units[units of bare numbers and of the answer]:units:(c-mm f-in f-mm c-in)'
        '--language[language of the answer]:language:(en de es fr pt-BR)'
        '--json[the answer as JSON]'
        '(-h --help)'{-h,--help}'[help]'
        '(-V --version)'{-V,--version}'[the version]'
    )
    [[ ${words[(r)card]} = card ]] && options+=(
        '-o[the file to write]:file:_files'
        '--letter[Letter paper]'
        '--csv[the readings as a table]'
    )
    _arguments -C $options '1:command:->command' '*::given:->given'
    if [[ $state = command ]]; then
        _alternative 'commands:command:(plan ask log card backup restore help)' 'files:file:_files'
        return
    fi
    [[ $state = given ]] || return
    case $line[1] in
    plan) _alternative 'files:file:_files' 'keys:key:{_strawblue_keys help plan}' ;;
    ask)
        if (( CURRENT == 1 )); then
            compadd -- ${(f)"$(_strawblue_names ask)"}
        else
            _strawblue_keys ask $words[1]
        fi
        ;;
    log)
        if (( CURRENT == 1 )); then
            compadd -- list show new read trial step piece used undo remove back settle export import example
        else
            case $words[1] in
            new) _alternative 'files:file:_files' 'keys:key:{_strawblue_keys help plan}' ;;
            import | export) _files ;;
            esac
        fi
        ;;
    card | backup | restore) _files ;;
    help) (( CURRENT == 1 )) && compadd -- plan ask log card backup restore json ;;
    esac
}

_strawblue "$@"
