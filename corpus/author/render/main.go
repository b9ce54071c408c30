// Command render writes the caption files and the truth of session scripts.
//
// usage: render CAPTIONS_DIR RECOGNISED_DIR SCRIPT...
//
// For NAME.script.txt it writes NAME.word.vtt, NAME.cue.srt, NAME.block.txt and
// NAME.truth.json into both directories: a good captioner's into the first, a
// poor recogniser's into the second.
package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"

	"captally.example/captally/corpus/author"
)

func main() { os.Exit(run(os.Args[1:], os.Stderr)) }

func run(args []string, errs io.Writer) int {
	if len(args) < 3 {
		fmt.Fprintln(errs, "usage: render CAPTIONS_DIR RECOGNISED_DIR SCRIPT...")
		return 2
	}
	for _, script := range args[2:] {
		if err := render(args[0], args[1], script); err != nil {
			fmt.Fprintln(errs, "render: error:", err)
			return 1
		}
	}
	return 0
}

// render writes the files of one script, or none if it has a fault.
func render(captionsDir, recognisedDir, script string) error {
	text, err := os.ReadFile(script)
	if err != nil {
		return err
	}
	captions, recognised, err := author.Render(script, text)
	if err != nil {
		return err
	}
	if err := write(captionsDir, captions); err != nil {
		return err
	}
	return write(recognisedDir, recognised)
}

func write(dir string, files []author.File) error {
	for _, f := range files {
		if err := os.WriteFile(filepath.Join(dir, f.Name), f.Data, 0o644); err != nil {
			return err
		}
	}
	return nil
}
