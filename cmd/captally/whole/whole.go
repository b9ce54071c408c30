// Package whole writes a file whole or not at all.
package whole

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// Write puts data into a file that only its owner can read, by way of a temporary file in the same folder: whenever the program
// or the machine stops, path holds what it held before or all of data. The folder is flushed, too, so that the new name lasts.
// (On Windows a rename is no promise against power cuts.) Where path is no file, such as /dev/null or a pipe, data is written to
// it. step is told how far it has come: "begun", "created", "half", "written", "flushed", "renamed"; it may be nil.
func Write(path string, data []byte, step func(string)) error {
	if step == nil {
		step = func(string) {}
	}
	path = target(path)
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		return writeDevice(path, data)
	}
	step("begun")
	f, err := os.CreateTemp(filepath.Dir(path), prefix(path)+"*"+unfinished)
	if err != nil {
		return err
	}
	if err := fill(f, data, step); err != nil {
		_ = f.Close()
		_ = os.Remove(f.Name())
		return err
	}
	if err := os.Rename(f.Name(), path); err != nil {
		_ = os.Remove(f.Name())
		return err
	}
	step("renamed")
	flushFolder(filepath.Dir(path))
	return nil
}

// fill writes data to the disk in two parts and closes the file.
func fill(f *os.File, data []byte, step func(string)) error {
	step("created")
	half := len(data) / 2
	if _, err := f.Write(data[:half]); err != nil {
		return err
	}
	step("half")
	if _, err := f.Write(data[half:]); err != nil {
		return err
	}
	step("written")
	if err := f.Sync(); err != nil {
		return fmt.Errorf("flushing to the disk: %w", err)
	}
	step("flushed")
	return f.Close()
}

// target is the file that a link names.
func target(path string) string {
	if to, err := filepath.EvalSymlinks(path); err == nil {
		return to
	}
	return path
}

func prefix(path string) string { return "." + filepath.Base(path) + "." }

const unfinished = ".tmp" // ends the name of a temporary file

// Sweep removes what programs that were killed while they wrote path have left. Nobody may be writing it.
func Sweep(path string) {
	path = target(path)
	all, _ := os.ReadDir(filepath.Dir(path))
	for _, f := range all {
		if name := f.Name(); strings.HasPrefix(name, prefix(path)) && strings.HasSuffix(name, unfinished) {
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

// writeDevice writes to what must not be replaced by a file.
func writeDevice(path string, data []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}
