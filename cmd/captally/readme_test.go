package main

import (
	"bytes"
	"flag"
	"os"
	"os/exec"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write what the commands in the README print into it")

// TestREADME runs each block of the README that begins with "$ captally" and wants what stands below that line. The
// commands run in the project's root.
func TestREADME(t *testing.T) {
	sh, err := exec.LookPath("sh")
	if err != nil {
		t.Skip("no sh to run the commands of the README with")
	}
	const path = "../../README.md"
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	rest := string(text)
	blocks := 0
	for {
		before, after, found := strings.Cut(rest, "```console\n$ captally")
		out.WriteString(before)
		if !found {
			break
		}
		block, tail, closed := strings.Cut(after, "```\n")
		if !closed {
			t.Fatalf("a block is not closed: %s", after)
		}
		blocks++
		command, want, _ := strings.Cut(block, "\n")
		command = "captally" + command
		run := exec.Command(sh, "-c", command+" 2>&1")
		run.Dir = "../.."
		run.Env = append(os.Environ(), "XDG_CONFIG_HOME="+t.TempDir()) // nobody's own profile
		got, err := run.Output()                                       // examples may show exit codes other than 0
		if _, exited := err.(*exec.ExitError); err != nil && !exited {
			t.Fatal(err)
		}
		if bytes.Contains(got, []byte("panic: ")) || bytes.Contains(got, []byte("captally: error: ")) {
			t.Fatalf("$ %s\nfails: %s", command, got)
		}
		if string(got) != want && !*update {
			t.Errorf("$ %s\nprints now:\n%s\nin the README:\n%s\n(go test ./cmd/captally -run README -update writes it there)", command, got, want)
		}
		out.WriteString("```console\n$ " + command + "\n" + string(got) + "```\n")
		rest = tail
	}
	if blocks < 3 {
		t.Errorf("only %d examples were found", blocks)
	}
	if *update {
		if err := os.WriteFile(path, out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
