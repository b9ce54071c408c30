package whole

import (
	"os"
	"path/filepath"
	"testing"
)

func TestWriteLeavesNothingBehind(t *testing.T) {
	folder := t.TempDir()
	// A folder that is not empty cannot be replaced by a file: the rename, the last step, fails.
	target := filepath.Join(folder, "target")
	if err := os.MkdirAll(filepath.Join(target, "full"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := Write(target, []byte("x"), nil); err == nil {
		t.Fatal("a folder was replaced by a file")
	}
	entries, err := os.ReadDir(folder)
	if err != nil || len(entries) != 1 {
		t.Fatalf("left behind: %v, %v", entries, err)
	}
}

func TestWriteKeepsLinks(t *testing.T) {
	folder := t.TempDir()
	real, link := filepath.Join(folder, "real"), filepath.Join(folder, "link")
	if err := os.WriteFile(real, []byte("before"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("real", link); err != nil {
		t.Skipf("no links here: %v", err)
	}
	if err := Write(link, []byte("after"), nil); err != nil {
		t.Fatal(err)
	}
	if got, _ := os.ReadFile(real); string(got) != "after" {
		t.Errorf("the file behind the link holds %q, want %q", got, "after")
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link was replaced by a file (%v)", err)
	}
}
