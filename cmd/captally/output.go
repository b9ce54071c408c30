package main

import (
	"bytes"
	"errors"
	"io"
	"os"

	"captally.example/captally/cmd/captally/whole"
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
		err = whole.Write(o.path, o.kept.Bytes(), nil)
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
