package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestRun(t *testing.T) {
	dir := t.TempDir()
	good, bad := filepath.Join(dir, "good.script.txt"), filepath.Join(dir, "bad.script.txt")
	os.WriteFile(good, []byte("seed: 1\n@talk\nHello there.\n@set squats | dose 3 | pace 3\nGo.\n: 1..3\n@talk\nGoodbye.\n"), 0o644)
	os.WriteFile(bad, []byte("@talk\nHello.\n@dance\n"), 0o644)
	tests := []struct {
		args  []string
		code  int
		says  string // on standard error
		files int    // in each directory
	}{
		{[]string{good}, 0, "", 4},
		{[]string{bad}, 1, bad + ":3: unknown part @dance", 0},
		{[]string{filepath.Join(dir, "none")}, 1, "no such file", 0},
		{nil, 2, "usage:", 0},
	}
	for _, tt := range tests {
		captions, recognised := t.TempDir(), t.TempDir()
		var errs strings.Builder
		code := run(append([]string{captions, recognised}, tt.args...), &errs)
		if code != tt.code || !strings.Contains(errs.String(), tt.says) || tt.says == "" && errs.String() != "" {
			t.Errorf("%v: exit %d saying %q, want %d saying %q", tt.args, code, errs.String(), tt.code, tt.says)
		}
		for _, d := range []string{captions, recognised} {
			if files, _ := os.ReadDir(d); len(files) != tt.files {
				t.Errorf("%v: %d files, want %d", tt.args, len(files), tt.files)
			}
		}
	}
}
