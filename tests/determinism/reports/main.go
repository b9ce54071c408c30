// The reports program prints a hash of the report and of the notes of every labelled file, one file a line. The test beside it builds it in several ways.
package main

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"os"
	"slices"

	"captally.example/captally/analyze"
	"captally.example/captally/corpus"
	"captally.example/captally/notes"
	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

func main() {
	for _, s := range slices.Concat(corpus.Sessions(), corpus.Recognised()) {
		for _, f := range s.Files() {
			track, err := caption.Parse(f.Data, f.Name, caption.Options{})
			if err != nil {
				fmt.Fprintln(os.Stderr, err)
				os.Exit(1)
			}
			report := analyze.Measure(segment.Decode(track), analyze.Options{})
			draft := notes.Draft(report, notes.Profile{})
			fmt.Println(f.Name, hash(report), hash(draft))
		}
	}
}

func hash(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	return fmt.Sprintf("%x", sha256.Sum256(b))[:16]
}
