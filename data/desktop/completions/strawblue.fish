# Completion of strawblue for fish. Keys and questions are asked of the program itself.

function __strawblue_names
    strawblue $argv 2>/dev/null | string replace -rf '^  ([a-z][a-z0-9.-]*)[ ,…]*(.*)$' '$1\t$2'
end

function __strawblue_keys
    __strawblue_names $argv | string replace \t =\t
end

# The nth word of the command line that is no option.
function __strawblue_word
    set -l words (commandline -opc | string match -v -- '-*')
    set -q words[$argv[1]]; and echo $words[$argv[1]]
end

function __strawblue_at
    test "$(__strawblue_word 2)" = "$argv[1]"; and test "$(__strawblue_word 3)" = "$argv[2]"
end

complete -c strawblue -f
complete -c strawblue -l units -x -a 'c-mm f-in f-mm c-in' -d 'Units of bare numbers and of the answer'
complete -c strawblue -l language -x -a 'en de es fr pt-BR' -d 'Language of the answer'
complete -c strawblue -l json -d 'The answer as JSON'
complete -c strawblue -l help -s h -d Help
complete -c strawblue -l version -s V -d Version

complete -c strawblue -n '__strawblue_at "" ""' -a plan -d 'The plan of a job'
complete -c strawblue -n '__strawblue_at "" ""' -a ask -d 'One question'
complete -c strawblue -n '__strawblue_at "" ""' -a log -d 'What was done'
complete -c strawblue -n '__strawblue_at "" ""' -a card -d 'The job card of a log'
complete -c strawblue -n '__strawblue_at "" ""' -a backup -d 'All that is kept, into one file'
complete -c strawblue -n '__strawblue_at "" ""' -a restore -d 'All of a backup, back'
complete -c strawblue -n '__strawblue_at "" ""' -a help -d Help
complete -c strawblue -n '__strawblue_at "" ""' -F
complete -c strawblue -n 'contains -- "$(__strawblue_word 2)" backup restore' -F

complete -c strawblue -n '__strawblue_at help ""' -a 'plan ask log card backup restore json'
complete -c strawblue -n 'test "$(__strawblue_word 2)" = plan' -F -a '(__strawblue_keys help plan)'
complete -c strawblue -n '__strawblue_at ask ""' -a '(__strawblue_names ask)'
complete -c strawblue -n 'test "$(__strawblue_word 2)" = ask; and test -n "$(__strawblue_word 3)"' \
    -a '(__strawblue_keys ask (__strawblue_word 3))'
complete -c strawblue -n '__strawblue_at log ""' \
    -a 'list show new read trial step piece used undo remove back settle export import example'
complete -c strawblue -n '__strawblue_at log new' -F -a '(__strawblue_keys help plan)'
complete -c strawblue -n '__strawblue_at log import' -F
complete -c strawblue -n '__strawblue_at log export' -F
complete -c strawblue -n 'test "$(__strawblue_word 2)" = card' -F -s o -r -d 'The file to write'
complete -c strawblue -n 'test "$(__strawblue_word 2)" = card' -l letter -d 'Letter paper'
complete -c strawblue -n 'test "$(__strawblue_word 2)" = card' -l csv -d 'The readings as a table'
