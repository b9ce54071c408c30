// Package corpus holds labelled exercise sessions and scores reports and notes against them.
//
// Each session is there as three caption files, from a fine clock to a coarse one, and the truth of what was said and done;
// README.md beside this file says what the truth holds and by what conventions. Tests, benchmarks, the program that fits parameters and
// the demonstration of the command import this package; nothing else does.
package corpus

import (
	"bytes"
	"embed"
	"encoding/json"
	"fmt"
	"io/fs"
	"path"
	"strings"

	"captally.example/captally/segment/caption"
)

// The sets are embedded apart, so that a program which uses one does not carry the others.
var (
	//go:embed sessions/*
	sessions embed.FS
	//go:embed recognised/*
	recognised embed.FS
	//go:embed more/*.vtt more/*.srt more/*.block.txt more/*.json
	more embed.FS
	//go:embed more-recognised/*.vtt more-recognised/*.srt more-recognised/*.block.txt more-recognised/*.json
	moreRecognised embed.FS
	//go:embed heldback.txt
	heldBack string
)

// HeldBack names the sessions of [More] and [MoreRecognised] on which nothing is fitted: what is reached there says what to expect of
// other voices.
func HeldBack() []string {
	var out []string
	for line := range strings.Lines(heldBack) {
		if line = strings.TrimSpace(line); line != "" && line[0] != '#' {
			out = append(out, line)
		}
	}
	return out
}

// Timings are the clocks in which every session is there, the finest first.
var Timings = []caption.Timing{caption.TimingWord, caption.TimingCue, caption.TimingBlock}

// A File is one caption file of a session.
type File struct {
	Name   string // without folder: "seated-bands.word.vtt"
	Timing caption.Timing
	Data   []byte // the caller's own
}

// A Session is one labelled session.
type Session struct {
	Name             string // "seated-bands"
	Truth            *Truth
	Word, Cue, Block File
}

// Files returns the files of the session in the order of [Timings].
func (s Session) Files() []File { return []File{s.Word, s.Cue, s.Block} }

// Sessions returns the sessions as careful captions have them, sorted by name. Each call reads them anew.
func Sessions() []Session { return read(sessions, "sessions") }

// Recognised returns the same sessions as a weak speech recogniser wrote them down, sorted by name. Each call reads them anew.
func Recognised() []Session { return read(recognised, "recognised") }

// More returns further sessions, in other voices and with other habits of counting, as careful captions have them, sorted by name. Each call reads them anew.
func More() []Session { return read(more, "more") }

// MoreRecognised returns the sessions of [More] as a weak speech recogniser would write them down, sorted by name. Each call reads them anew.
func MoreRecognised() []Session { return read(moreRecognised, "more-recognised") }

// read reads the sessions of a folder. It panics on a fault, since what it reads is built into the program.
func read(files embed.FS, folder string) []Session {
	names, err := fs.Glob(files, folder+"/*.truth.json") // sorted
	if err != nil {
		panic(err)
	}
	var out []Session
	for _, name := range names {
		data := func(suffix string) File {
			file := strings.TrimSuffix(name, ".truth.json") + suffix
			b, err := files.ReadFile(file)
			if err != nil {
				panic(fmt.Sprintf("corpus: %v", err))
			}
			return File{Name: path.Base(file), Data: b}
		}
		truth, err := ReadTruth(name, data(".truth.json").Data)
		if err != nil {
			panic(fmt.Sprintf("corpus: %v", err))
		}
		s := Session{Name: truth.Name, Truth: truth, Word: data(".word.vtt"), Cue: data(".cue.srt"), Block: data(".block.txt")}
		s.Word.Timing, s.Cue.Timing, s.Block.Timing = caption.TimingWord, caption.TimingCue, caption.TimingBlock
		out = append(out, s)
	}
	return out
}

// ReadTruth reads a truth file. A field that it does not know is an error: a label that nobody scores would be believed to count.
func ReadTruth(name string, data []byte) (*Truth, error) {
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	t := new(Truth)
	if err := d.Decode(t); err != nil {
		line := 1 + bytes.Count(data[:min(d.InputOffset(), int64(len(data)))], []byte("\n"))
		return nil, fmt.Errorf("%s:%d: reading the truth of a session: %w", name, line, err)
	}
	return t, t.check(name)
}
