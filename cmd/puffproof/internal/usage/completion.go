package usage

import (
	"fmt"
	"strings"
)

// The scripts hold the commands and flags as words, so completing needs no run
// of the program. They are made from the Registry and cannot fall behind it.

// flagWords lists a command's flags with their dashes, a "=" behind those that
// take a value.
func flagWords[R any](c *Command[R]) []string {
	words := []string{"--help"}
	for _, o := range append(GlobalOptions(), c.Options...) {
		w := typed(o.Name)
		if o.Value != "" && len(o.Name) > 1 { // what belongs to a letter stands behind a blank
			w += "="
		}
		words = append(words, w)
		if o.Short != "" {
			words = append(words, "-"+o.Short)
		}
	}
	return words
}

// Bash completes in bash.
func (r Registry[R]) Bash() string {
	var cases strings.Builder
	for _, c := range r.Commands {
		operands := `COMPREPLY=($(compgen -W "` + strings.Join(c.Words, " ") + `" -- "$cur"))`
		if c.Files {
			operands = `COMPREPLY=($(compgen -f -- "$cur"))`
		}
		fmt.Fprintf(&cases, "    %s) flags=%q; operands() { %s; } ;;\n", c.Name, strings.Join(flagWords(c), " "), operands)
	}
	first := strings.Join(append(r.Names(), "help", "--help", "--version"), " ")
	return `# puffproof completion for bash
_puffproof() {
  local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD-1]} word command="" flags
  COMPREPLY=()
  if [[ $cur == "=" ]]; then cur=""; else [[ $prev == "=" ]] && prev=${COMP_WORDS[COMP_CWORD-2]}; fi
  for word in "${COMP_WORDS[@]:1:COMP_CWORD-1}"; do
    case $word in ` + strings.Join(r.Names(), "|") + `|help) command=$word; break ;; esac
  done
  case $prev in
    --units) COMPREPLY=($(compgen -W "metric us" -- "$cur")); return ;;
    --plot|-o) COMPREPLY=($(compgen -f -- "$cur")); return ;;
  esac
  case $command in
` + cases.String() + `    *) COMPREPLY=($(compgen -W "` + first + `" -- "$cur")); return ;;
  esac
  if [[ $cur == -* ]]; then
    COMPREPLY=($(compgen -W "$flags" -- "$cur"))
    [[ ${COMPREPLY[0]} == *= ]] && compopt -o nospace
  else
    operands
    compopt -o filenames 2>/dev/null
  fi
}
complete -F _puffproof puffproof
`
}

// Zsh completes in zsh.
func (r Registry[R]) Zsh() string {
	var list, cases strings.Builder
	for _, c := range r.Commands {
		fmt.Fprintf(&list, "    '%s:%s'\n", c.Name, zshText(c.Summary))
		fmt.Fprintf(&cases, "    %s)\n      _arguments \\\n", c.Name)
		for _, o := range append(GlobalOptions(), c.Options...) {
			fmt.Fprintf(&cases, "        '%s' \\\n", zshOption(o))
			if o.Short != "" {
				fmt.Fprintf(&cases, "        '-%s[%s]' \\\n", o.Short, zshText(o.Help))
			}
		}
		switch {
		case c.Files:
			fmt.Fprint(&cases, "        '*:file:_files' ;;\n")
		default:
			fmt.Fprintf(&cases, "        '1:word:(%s)' ;;\n", strings.Join(c.Words, " "))
		}
	}
	return `#compdef puffproof
# puffproof completion for zsh
_puffproof() {
  local -a commands
  commands=(
` + list.String() + `    'help:explain a command'
  )
  if (( CURRENT == 2 )); then
    _describe 'command' commands
    return
  fi
  local command=$words[2]
  shift words
  (( CURRENT-- ))
  case $command in
` + cases.String() + `    help) _describe 'command' commands ;;
  esac
}
if [[ $funcstack[1] == _puffproof ]]; then _puffproof "$@"; else compdef _puffproof puffproof; fi
`
}

// zshOption is one option as _arguments wants it.
func zshOption(o Option) string {
	t := typed(o.Name)
	if o.Value != "" && len(o.Name) > 1 {
		t += "="
	}
	t += "[" + zshText(o.Help) + "]"
	switch {
	case len(o.Choices) > 0:
		t += ":value:(" + strings.Join(o.Choices, " ") + ")"
	case o.Files:
		t += ":file:_files"
	case o.Value != "":
		t += ":value:"
	}
	return t
}

// zshText escapes what means something inside a quoted zsh specification.
func zshText(s string) string {
	return strings.NewReplacer(`'`, `'\''`, `:`, `\:`, `[`, `\[`, `]`, `\]`).Replace(s)
}

// Fish completes in fish.
func (r Registry[R]) Fish() string {
	var b strings.Builder
	names := strings.Join(r.Names(), " ")
	fmt.Fprint(&b, "# puffproof completion for fish\ncomplete -c puffproof -f\n")
	for _, c := range r.Commands {
		fmt.Fprintf(&b, "complete -c puffproof -n 'not __fish_seen_subcommand_from %s help' -a %s -d %s\n", names, c.Name, fishText(c.Summary))
	}
	fmt.Fprintf(&b, "complete -c puffproof -n 'not __fish_seen_subcommand_from %s help' -a help -d 'explain a command'\n", names)
	for _, o := range GlobalOptions() {
		fmt.Fprintln(&b, "complete -c puffproof "+fishOption(o))
	}
	for _, c := range r.Commands {
		when := fmt.Sprintf("complete -c puffproof -n '__fish_seen_subcommand_from %s' ", c.Name)
		if c.Files {
			fmt.Fprintln(&b, when+"-F")
		}
		if len(c.Words) > 0 {
			fmt.Fprintln(&b, when+"-a "+fishText(strings.Join(c.Words, " ")))
		}
		for _, o := range c.Options {
			fmt.Fprintln(&b, when+fishOption(o))
		}
	}
	return b.String()
}

// fishOption is one option as fish's complete wants it.
func fishOption(o Option) string {
	t := "-l " + o.Name
	if len(o.Name) == 1 {
		t = "-s " + o.Name
	}
	if o.Short != "" {
		t = "-s " + o.Short + " " + t
	}
	t += " -d " + fishText(o.Help)
	switch {
	case len(o.Choices) > 0:
		t += " -x -a " + fishText(strings.Join(o.Choices, " "))
	case o.Files:
		t += " -r -F"
	case o.Value != "":
		t += " -x"
	}
	return t
}

// fishText quotes a text for fish.
func fishText(s string) string {
	return "'" + strings.NewReplacer(`\`, `\\`, `'`, `\'`).Replace(s) + "'"
}
