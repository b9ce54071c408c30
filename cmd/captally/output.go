package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/urfave/cli/v2"
)

// An output is where a command's result goes: standard output, or with --out a file that is written
// at the end, whole or not at all.
type output struct {
	io.Writer
	failed error
	path   string        // empty for standard output
	kept   *bytes.Buffer // what will be in the file
	plain  bool          // without colours
}

func outFlag() cli.Flag {
	return &cli.StringFlag{Name: "out", Usage: "write to `FILE` instead of the screen"}
}

// newOutput prepares the output of a command that reads the given files. It refuses to write over one of them.
func newOutput(c *cli.Context, inputs ...string) (*output, error) {
	path := c.String("out")
	if c.IsSet("out") && path == "" {
		return nil, misuse("for example --out report.json", "--out needs the name of a file")
	}
	if path == "" || path == "-" {
		return &output{Writer: c.App.Writer, plain: !wantsColour(c.App.Writer)}, nil
	}
	info, err := os.Stat(path)
	if err == nil && info.IsDir() {
		return nil, misuse("give the name of a file in it", "--out %s is a folder", path)
	}
	for _, in := range inputs {
		if other, e := os.Stat(in); err == nil && e == nil && os.SameFile(info, other) {
			return nil, misuse("choose another name for --out", "--out %s would write over the captions that are read", path)
		}
	}
	kept := new(bytes.Buffer)
	return &output{Writer: kept, path: path, kept: kept, plain: true}, nil
}

// Write remembers the first failure, so that printing code need not look at each line's.
func (o *output) Write(p []byte) (int, error) {
	if o.failed != nil {
		return 0, o.failed
	}
	n, err := o.Writer.Write(p)
	o.failed = err
	return n, err
}

// close finishes the output; nothing counts as written before it returns nil.
func (o *output) close() error {
	err := o.failed
	if err == nil && o.kept != nil {
		err = writeFile(o.path, o.kept.Bytes())
	}
	if err == nil {
		return nil
	}
	var inPath *os.PathError
	if errors.As(err, &inPath) {
		err = inPath.Err
	}
	if o.path == "" {
		return unreadable("", "writing the result: %v", err)
	}
	return unreadable("", "writing %s: %v; nothing was written", o.path, err)
}

// writeFile writes a file that only its owner can read, by way of a temporary file in the same folder, so that
// path holds either what it held before or all of data. (On Windows a rename is no promise against power cuts.)
func writeFile(path string, data []byte) (err error) {
	if target, e := filepath.EvalSymlinks(path); e == nil {
		path = target
	}
	if info, e := os.Stat(path); e == nil && !info.Mode().IsRegular() {
		return writeDevice(path, data)
	}
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+".*.tmp")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			_ = f.Close()
			_ = os.Remove(f.Name())
		}
	}()
	if _, err = f.Write(data); err != nil {
		return err
	}
	if err = f.Sync(); err != nil {
		return fmt.Errorf("flushing to the disk: %w", err)
	}
	if err = f.Close(); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}

// writeDevice writes to what is no file, such as /dev/null or a pipe, and must not be replaced by one.
func writeDevice(path string, data []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}
