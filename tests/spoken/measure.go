package spoken

import (
	"captally.example/captally/analyze"
	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// A File is the speech in one format.
type File struct {
	Name   string
	Timing caption.Timing
	Data   []byte
}

// Files returns the speech in the three timings, the finest clock first.
func (s *Speech) Files() []File {
	return []File{
		{"speech.word.vtt", caption.TimingWord, s.WebVTT()},
		{"speech.cue.srt", caption.TimingCue, s.SubRip()},
		{"speech.block.txt", caption.TimingBlock, s.Transcript()},
	}
}

// Measure takes the file the whole way to its report.
func (f File) Measure() (*analyze.Report, error) {
	track, err := caption.Parse(f.Data, f.Name, caption.Options{})
	if err != nil {
		return nil, err
	}
	return analyze.Measure(segment.Decode(track), analyze.Options{}), nil
}
