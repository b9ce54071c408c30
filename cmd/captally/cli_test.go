package main

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"captally.example/captally/corpus"
	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"captally": main})
}

// TestScripts runs the scripts in tests/cli, each in a folder of its own. The folder sessions/ there holds the labelled sessions.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "../../tests/cli",
		Setup: func(e *testscript.Env) error {
			e.Setenv("NO_COLOR", "")
			return writeSessions(filepath.Join(e.WorkDir, "sessions"))
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits":     exits,
			"repeat":    repeat,
			"bytes":     writeBytes,
			"only":      only,
			"narrow":    narrow,
			"completes": completes,
		},
	})
}

func writeSessions(folder string) error {
	if err := os.Mkdir(folder, 0o755); err != nil {
		return err
	}
	for _, s := range corpus.Sessions() {
		for _, f := range s.Files() {
			if err := os.WriteFile(filepath.Join(folder, f.Name), f.Data, 0o644); err != nil {
				return err
			}
		}
	}
	return nil
}

// exits CODE PROGRAM ARGS... runs a program and wants this exit code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE PROGRAM ARGS...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// repeat FILE BYTES writes a caption file of at least so many bytes.
func repeat(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: repeat FILE BYTES")
	}
	size, err := strconv.Atoi(args[1])
	ts.Check(err)
	cue := "1\n00:00:01,000 --> 00:00:02,000\nlift and lower\n\n"
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.Repeat(cue, size/len(cue)+1)), 0o644))
}

// bytes FILE TEXT writes text with Go's escapes, such as "\x00".
func writeBytes(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: bytes FILE TEXT")
	}
	text, err := strconv.Unquote(`"` + args[1] + `"`)
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(text), 0o644))
}

// only FOLDER NAMES... wants exactly these entries, hidden ones too.
func only(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) == 0 {
		ts.Fatalf("usage: only FOLDER NAMES...")
	}
	entries, err := os.ReadDir(ts.MkAbs(args[0]))
	ts.Check(err)
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	if got, want := strings.Join(names, " "), strings.Join(args[1:], " "); got != want {
		ts.Fatalf("%s holds %q, want %q", args[0], got, want)
	}
}

// narrow FILE COLUMNS wants no line longer than this many characters, and some line longer than half.
func narrow(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: narrow FILE COLUMNS")
	}
	limit, err := strconv.Atoi(args[1])
	ts.Check(err)
	longest := 0
	for _, line := range strings.Split(ts.ReadFile(args[0]), "\n") {
		n := len([]rune(line))
		longest = max(longest, n)
		if n > limit {
			ts.Fatalf("%d characters: %s", n, line)
		}
	}
	if longest <= limit/2 {
		ts.Fatalf("longest line has %d characters: nothing was printed?", longest)
	}
}

// completes WORDS... -- OFFERS... sources the script completion.bash in a real bash, completes the last word of the line
// "captally WORDS...", and wants exactly these offers ("" as a word is a word not yet begun).
func completes(ts *testscript.TestScript, neg bool, args []string) {
	cut := -1
	for i, a := range args {
		if a == "offers:" {
			cut = i
		}
	}
	if neg || cut < 1 {
		ts.Fatalf("usage: completes WORDS... offers: OFFERS...")
	}
	words := append([]string{"captally"}, args[:cut]...)
	script := `. ./completion.bash
COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1))
_captally
echo "${COMPREPLY[*]}"`
	ts.Check(ts.Exec("bash", append([]string{"-c", script, "bash"}, words...)...))
	got := regexp.MustCompile(`\s+`).ReplaceAllString(strings.TrimSpace(ts.ReadFile("stdout")), " ")
	if want := strings.Join(args[cut+1:], " "); got != want {
		ts.Fatalf("%q offers %q, want %q", args[:cut], got, want)
	}
}
