package keep

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// write puts data into a file that only its owner can read, by way of a temporary file in the same folder: whenever the program
// or the machine stops, path holds what it held before or all of data. The folder is flushed, too, so that the new name lasts.
// (On Windows a rename is no promise against power cuts.) What a program that was killed has left is swept up. step is told how far
// it has come.
func write(path string, data []byte, step func(string)) (err error) {
	if target, e := filepath.EvalSymlinks(path); e == nil {
		path = target
	}
	sweep(path)
	step("begun")
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+".*"+unfinished)
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			_ = f.Close()
			_ = os.Remove(f.Name())
		}
	}()
	step("created")
	if _, err = f.Write(data[:len(data)/2]); err != nil {
		return err
	}
	step("half")
	if _, err = f.Write(data[len(data)/2:]); err != nil {
		return err
	}
	step("written")
	if err = f.Sync(); err != nil {
		return fmt.Errorf("flushing to the disk: %w", err)
	}
	step("flushed")
	if err = f.Close(); err != nil {
		return err
	}
	if err = os.Rename(f.Name(), path); err != nil {
		return err
	}
	step("renamed")
	flushFolder(filepath.Dir(path))
	return nil
}

const unfinished = ".tmp" // ends the name of a temporary file

// sweep removes temporary files of path. The lock is held, so nobody is writing them.
func sweep(path string) {
	all, _ := os.ReadDir(filepath.Dir(path))
	for _, f := range all {
		if name := f.Name(); strings.HasPrefix(name, "."+filepath.Base(path)+".") && strings.HasSuffix(name, unfinished) {
			_ = os.Remove(filepath.Join(filepath.Dir(path), name))
		}
	}
}

// flushFolder does what it can: some file systems know no flushing of folders, and the file is there all the same.
func flushFolder(folder string) {
	if runtime.GOOS == "windows" {
		return
	}
	if d, err := os.Open(folder); err == nil {
		_ = d.Sync()
		_ = d.Close()
	}
}
