package review

import (
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"
	"regexp"
	"strings"

	"captally.example/captally/analyze"
	"captally.example/captally/cmd/captally/figures"
	"captally.example/captally/notes"
	"captally.example/captally/segment/caption"
)

// A form is one form of the notes, as it stands in the box to copy from.
type form struct {
	Name   string      `json:"name"`
	Label  string      `json:"label"`
	Text   string      `json:"text"`
	Rich   string      `json:"rich,omitempty"` // the same as HTML, for pasting with its headings and lists
	Gaps   string      `json:"gaps"`           // how many gaps are left to fill, "" for none
	Edited bool        `json:"edited"`         // the therapist's own words are in it
	Base   string      `json:"base,omitempty"` // the draft without them, where it is edited
	Clash  *clashShown `json:"clash,omitempty"`
}

// A clashShown is where the therapist's words stand in lines that the draft has changed since: the lines that only one of the
// two has.
type clashShown struct {
	Yours string `json:"yours"`
	Draft string `json:"draft"`
}

// onlyIn returns the lines of a that b does not have.
func onlyIn(a, b string) string {
	there := map[string]bool{}
	for line := range strings.Lines(b) {
		there[strings.TrimSpace(line)] = true
	}
	var out strings.Builder
	for line := range strings.Lines(a) {
		if !there[strings.TrimSpace(line)] {
			out.WriteString(line)
		}
	}
	return strings.TrimRight(out.String(), "\n")
}

var gap = regexp.MustCompile(`\[[^\]\n]+\]`)

// gaps tells how many gaps in square brackets a text has.
func gaps(text string) string {
	n := len(gap.FindAllString(text, -1))
	if n == 0 {
		return ""
	}
	return figures.Count(n, "gap") + " in [brackets] for you to fill."
}

// drafts returns the notes in the forms that can be copied, as drafted.
func drafts(n *notes.Notes) []form {
	return []form{
		{Name: "text", Label: "description", Text: notes.Text(n)},
		{Name: "markdown", Label: "Markdown", Text: notes.Markdown(n)},
		{Name: "chapter-list", Label: "chapters", Text: chapterLines(n)},
	}
}

// chapterLines are the chapters as they stand in a video's description, a line each.
func chapterLines(n *notes.Notes) string {
	var b strings.Builder
	for _, c := range n.Chapters {
		fmt.Fprintf(&b, "%s %s\n", figures.Clock(c.Start), c.Title)
	}
	return b.String()
}

// A downloadable is a file to take away, or why it cannot be had.
type downloadable struct {
	Form  string `json:"form"`
	Label string `json:"label"`
	File  string `json:"file"`
	Why   string `json:"why,omitempty"`
}

// A sent is a file on its way to the browser.
type sent struct {
	name, kind string
	data       []byte
}

func downloads(t *caption.Track) []downloadable {
	stem := stemOf(t.Name)
	captions := downloadable{Form: "captions", Label: "Captions put right", File: stem + ".corrected" + strings.ToLower(filepath.Ext(t.Name))}
	if t.Format != "webvtt" && t.Format != "subrip" {
		captions.Why = "only WebVTT and SubRip are written back"
	}
	return []downloadable{
		{Form: "text", Label: "Description (text)", File: stem + ".notes.txt"},
		{Form: "markdown", Label: "Description (Markdown)", File: stem + ".notes.md"},
		{Form: "chapters", Label: "Chapters (WebVTT)", File: stem + ".chapters.vtt"},
		{Form: "handout", Label: "Hand-out to print", File: stem + ".handout.html"},
		captions,
		{Form: "overlay", Label: "Corrections to show over the video (WebVTT)", File: stem + ".overlay.vtt"},
		{Form: "report", Label: "Report (JSON)", File: stem + ".report.json"},
	}
}

// stemOf is a file's bare name without its ending.
func stemOf(name string) string {
	base := bareName(name)
	if stem := strings.TrimSuffix(base, filepath.Ext(base)); stem != "" {
		return stem
	}
	return base
}

// kinds are the media types of the files.
var kinds = map[string]string{
	"text": "text/plain; charset=utf-8", "markdown": "text/markdown; charset=utf-8", "chapters": "text/vtt; charset=utf-8",
	"handout": "text/html; charset=utf-8", "captions": "text/plain; charset=utf-8", "overlay": "text/vtt; charset=utf-8", "report": "application/json; charset=utf-8",
}

// file makes one file of the settled session. The description and the Markdown are as the therapist left them.
func (s *sitting) file(name string) (sent, error) {
	now, err := s.settled()
	if err != nil {
		return sent{}, err
	}
	for _, d := range downloads(s.track) {
		if d.Form != name {
			continue
		}
		if d.Why != "" {
			return sent{}, errors.New(d.Why)
		}
		data, err := s.content(name, now)
		return sent{d.File, kinds[name], data}, err
	}
	return sent{}, missing(fmt.Sprintf("there is no file %q to take away", name))
}

func (s *sitting) content(name string, now *settledSession) ([]byte, error) {
	draft := notes.Draft(now.report, s.profile)
	switch name {
	case "chapters":
		return notes.Chapters(draft), nil
	case "handout":
		return notes.Handout(draft)
	case "overlay":
		return notes.Overlay(draft), nil
	case "captions":
		data, _, err := notes.Captions(s.data, s.track, now.report, notes.SureEnoughToChange)
		return data, err
	case "report":
		return reportFile(now.report)
	}
	for _, f := range now.forms(drafts(draft)) {
		if f.Name == name {
			return []byte(f.Text), nil
		}
	}
	return nil, missing(fmt.Sprintf("there is no file %q to take away", name))
}

func reportFile(r *analyze.Report) ([]byte, error) {
	data, err := json.MarshalIndent(r, "", " ")
	return append(data, '\n'), err
}
