#!/bin/sh
# make.sh - HANDWHEEL KIND: what belongs to the command line, made from what the program itself tells of its commands,
# on stdout. KIND: bash, zsh or fish (completion), or man (the manual page, around head.man and tail.man).
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu
# Made while building: in English, and about the program just built.
export LC_ALL=C.UTF-8 LANGUAGE=C

handwheel=$1 kind=$2
here=$(cd "$(dirname "$0")" && pwd)

# On stdout: "command NAME SUMMARY ARGUMENTS" and "option NAME SHORT LONG VALUE TEXT", fields parted by tabs
table () {
  "$handwheel" --help | sed -n 's/^  \([a-z][a-z-]*\)  *\([^ ].*\)$/\1 \2/p' | grep -v '^handwheel ' |
    while read -r name summary; do
      "$handwheel" "$name" --help | awk -v name="$name" -v summary="$summary" '
        BEGIN { OFS = "\t" }
        /^  handwheel / { sub(/^  handwheel [a-z-]+ (\[OPTION…\] ?)?/, ""); print "command", name, summary, $0; next }
        /^  (-[a-z], )?--[a-z]/ {
          short = ""
          if (match($0, /^  -[a-z], /)) { short = substr($0, 4, 1); sub(/^  -[a-z], /, "  ") }
          match($0, /^  --[^ ]+/)
          long = substr($0, 5, RLENGTH - 4)
          text = substr($0, RLENGTH + 1)
          sub(/^ +/, "", text)
          value = ""
          if (at = index(long, "=")) { value = substr(long, at + 1); long = substr(long, 1, at - 1) }
          print "option", name, short, long, value, text
        }'
    done
}

# What may stand behind an option, where it is one of a few words.
words='
  function words(long) {
    if (long == "format") return "table csv xml"
    if (long == "paper") return "a4 a5 a6 letter"
    if (long == "kind") return "sewing load care test-seam fault needle"
    if (long == "per-sheet") return "1 2 4"
    return ""
  }
  function is_file(value) { return value == "FILE" || value == "FOLDER" }
  BEGIN { FS = "\t" }'

make_bash () {
  table | awk "$words"'
    $1 == "command" { names = names " " $2 }
    $1 == "option" {
      options[$2] = options[$2] " --" $4 ($5 != "" ? "=" : "")
      if (words($4) != "") cases[$4] = words($4)
    }
    END {
      print "# Completion for bash; made from “handwheel --help”"
      print "_handwheel () {"
      print "  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} command=${COMP_WORDS[1]}"
      print "  if [[ $word == = ]]; then word=; elif [[ $before == = ]]; then before=${COMP_WORDS[COMP_CWORD-2]}; fi"
      print "  COMPREPLY=()"
      print "  case $before in"
      for (long in cases) print "    --" long ") COMPREPLY=($(compgen -W \"" cases[long] "\" -- \"$word\")); return ;;"
      print "    --room) COMPREPLY=($(compgen -d -- \"$word\")); return ;;"
      print "  esac"
      print "  if [[ $COMP_CWORD == 1 ]]; then"
      print "    COMPREPLY=($(compgen -W \"" substr(names, 2) " --help --version\" -- \"$word\")" \
            " $(compgen -f -X \"!*.handwheel\" -- \"$word\"))"
      print "    return"
      print "  fi"
      print "  if [[ $word != -* ]]; then COMPREPLY=($(compgen -f -- \"$word\")); return; fi"
      print "  case $command in"
      n = split(substr(names, 2), list, " ")
      for (i = 1; i <= n; i++)
        print "    " list[i] ") COMPREPLY=($(compgen -W \"" substr(options[list[i]], 2) "\" -- \"$word\")) ;;"
      print "  esac"
      print "  [[ ${COMPREPLY[0]:-} != *= ]] || compopt -o nospace"
      print "}"
      print "complete -o filenames -F _handwheel handwheel"
    }'
}

make_zsh () {
  table | awk "$words"'
    function quote(text) {
      gsub(/\047/, "\047\\\047\047", text)
      gsub(/\[/, "\\[", text)
      gsub(/\]/, "\\]", text)
      gsub(/:/, "\\:", text)
      return text
    }
    BEGIN { print "#compdef handwheel"; print "# Completion for zsh; made from “handwheel --help”" }
    $1 == "command" { names[++n] = $2; summaries[n] = $3 }
    $1 == "option" {
      action = $5 == "" ? "" : ":" quote(tolower($5)) ":" (words($4) != "" ? "(" words($4) ")" : \
               $5 == "FOLDER" ? "_directories" : $5 == "FILE" ? "_files" : "")
      options[$2] = options[$2] " \\\n        \047*--" $4 ($5 != "" ? "=" : "") "[" quote($6) "]" action "\047"
    }
    END {
      print "_handwheel () {"
      print "  local -a commands"
      print "  commands=("
      for (i = 1; i <= n; i++) print "    \047" names[i] ":" quote(summaries[i]) "\047"
      print "  )"
      print "  if (( CURRENT == 2 )); then"
      print "    _describe command commands"
      print "    _files -g \"*.handwheel\""
      print "    return"
      print "  fi"
      print "  case $words[2] in"
      for (i = 1; i <= n; i++)
        print "    " names[i] ") shift words; (( CURRENT-- )); _arguments" options[names[i]] \
              " \\\n        \047*:file:_files\047 ;;"
      print "  esac"
      print "}"
      print "_handwheel \"$@\""
    }'
}

make_fish () {
  table | awk "$words"'
    function quote(text) { gsub(/\\/, "\\\\", text); gsub(/\047/, "\\\047", text); return "\047" text "\047" }
    BEGIN { print "# Completion for fish; made from “handwheel --help”" }
    $1 == "command" { print "complete -c handwheel -n __fish_use_subcommand -a " $2 " -d " quote($3) }
    $1 == "option" {
      print "complete -c handwheel -n \"__fish_seen_subcommand_from " $2 "\"" ($3 != "" ? " -s " $3 : "") " -l " $4 \
            ($5 == "" ? "" : is_file($5) ? " -r" : " -x") (words($4) != "" ? " -a " quote(words($4)) : "") \
            " -d " quote($6)
    }'
}

make_man () {
  cat "$here/head.man"
  table | awk '
    function roff(text) { gsub(/\\/, "\\e", text); gsub(/-/, "\\-", text); return text }
    BEGIN { FS = "\t" }
    $1 == "command" {
      print ".SS \"handwheel " roff($2) (roff($4) != "" ? " " roff($4) : "") "\""
      print toupper(substr($3, 1, 1)) roff(substr($3, 2)) "."
    }
    $1 == "option" && $4 != "help" {
      print ".TP"
      print ($3 != "" ? "\\fB\\-" $3 "\\fR, " : "") "\\fB\\-\\-" roff($4) "\\fR" \
            ($5 != "" ? "=\\fI" roff($5) "\\fR" : "")
      print roff($6)
    }'
  cat "$here/tail.man"
}

# A program that does not run must not pass for one without commands.
"$handwheel" --version >/dev/null
"make_$kind"
