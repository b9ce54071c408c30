package main

import (
	"fmt"
	"slices"
	"strings"

	"captally.example/captally/notes"
	"github.com/urfave/cli/v2"
)

func notesCommand() *cli.Command {
	return &cli.Command{
		Name:      "notes",
		Usage:     "draft the notes that go beneath the video",
		ArgsUsage: "FILE",
		Description: `Drafts the description of a session from what was said and measured: the
exercises with their doses, equipment, cautions, chapters, and what the viewer
should know about slips. Gaps for you to fill stand in [brackets].
It is a draft: read it before anyone else does.

text and markdown are the description; --limit keeps it within what a video's
page takes. chapters and overlay are WebVTT: the chapters, and the corrections
to show over the picture. captions is the file itself with the captioner's
mistakes on numbers put right; --diff lists them instead. handout is a page to
print. checklist says which items of published reporting checklists the session
fills. json is all of the draft for other programs. --reading tells how hard the
draft is to read.

Your clinic, cautions and own words come from captally.toml, beside the captions
or in your configuration folder; captally profile writes one to fill in.

Example: captally notes --out knee.txt knee.srt`,
		Flags: append([]cli.Flag{
			asFlag("text", "markdown", "json", "chapters", "handout", "captions", "overlay", "checklist"),
			&cli.IntFlag{Name: "limit", Usage: "keep the description within `N` characters", DefaultText: "no limit"},
			&cli.BoolFlag{Name: "diff", Usage: "of captions: list the changes, each with its probability", DisableDefaultText: true},
			&cli.Float64Flag{Name: "threshold", Usage: "of captions: leave alone what is less probable than `P`", Value: notes.SureEnoughToChange},
			&cli.BoolFlag{Name: "reading", Usage: "tell how hard the draft is to read, instead of printing it", DisableDefaultText: true},
			profileFlag(),
			unsettledFlag(),
			outFlag(),
		}, limitFlags()...),
		Action: draftNotes,
	}
}

func draftNotes(c *cli.Context) error {
	as, err := form(c)
	if err != nil {
		return err
	}
	if err := fitting(c, as); err != nil {
		return err
	}
	file, err := oneFile(c)
	if err != nil {
		return err
	}
	out, err := newOutput(c, file, c.String("profile"))
	if err != nil {
		return err
	}
	profile, err := readProfile(c, file)
	if err != nil {
		return err
	}
	most, err := limitsOf(c)
	if err != nil {
		return err
	}
	r, err := readReport(file, c.App.Reader, most, c.Bool("unsettled"))
	if err != nil {
		return err
	}
	r.settled.tell(c.App.ErrWriter)
	switch {
	case as == "captions":
		err = writeCaptions(out, r, c.Float64("threshold"), c.Bool("diff"))
	case as == "checklist":
		fmt.Fprint(out, notes.ChecklistText(notes.Checklist(r.report, profile)))
	case c.Bool("reading"):
		fmt.Fprint(out, notes.ReadabilityText(notes.Draft(r.report, profile)))
	default:
		err = writeNotes(out, notes.Draft(r.report, profile), as, c.Int("limit"))
	}
	if err != nil {
		return err
	}
	return out.close()
}

// fitting refuses flags that the form of notes has no use for.
func fitting(c *cli.Context, as string) error {
	for _, x := range []struct {
		flag  string
		forms []string
	}{
		{"limit", []string{"text", "markdown", "json"}}, {"diff", []string{"captions"}}, {"threshold", []string{"captions"}}, {"reading", []string{"text"}},
	} {
		if c.IsSet(x.flag) && !slices.Contains(x.forms, as) {
			return misuse("it goes with --as "+strings.Join(x.forms, ", "), "--%s does not go with --as %s", x.flag, as)
		}
	}
	if c.IsSet("limit") && c.Int("limit") < 1 {
		return misuse("for example --limit 5000", "--limit needs a number of characters, not %d", c.Int("limit"))
	}
	if p := c.Float64("threshold"); !(p >= 0 && p <= 1) {
		return misuse("for example --threshold 0.9", "--threshold is a probability from 0 to 1, not %v", p)
	}
	return nil
}

func writeNotes(out *output, n *notes.Notes, as string, limit int) error {
	form := notes.Text
	if as == "markdown" {
		form = notes.Markdown
	}
	if limit > 0 {
		short, err := notes.Limit(n, limit, form)
		if err != nil {
			return &fault{code: exitMisuse, text: err.Error(), hint: fmt.Sprintf("--limit %d is too small for this session", limit)}
		}
		n = short
	}
	switch as {
	case "json":
		writeJSON(out, n, "  ")
	case "chapters":
		_, _ = out.Write(notes.Chapters(n))
	case "overlay":
		_, _ = out.Write(notes.Overlay(n))
	case "handout":
		page, err := notes.Handout(n)
		if err != nil {
			return err
		}
		_, _ = out.Write(page)
	default:
		fmt.Fprint(out, form(n))
	}
	return nil
}

// writeCaptions writes the captions put right, or the list of what is wrong in them.
func writeCaptions(out *output, r *reading, threshold float64, diff bool) error {
	if f := r.track.Format; f != "webvtt" && f != "subrip" {
		return unreadable("captions can be put right in WebVTT and SubRip; captally words --as vtt makes WebVTT of any other",
			"%s: a file of format %s is not written back", r.track.Name, f)
	}
	data, changes, err := notes.Captions(r.data, r.track, r.report, threshold)
	if err != nil {
		return err
	}
	if diff {
		for line := range strings.Lines(notes.ChangesText(changes)) {
			fmt.Fprintln(out, plain(strings.TrimSuffix(line, "\n")))
		}
		return nil
	}
	_, _ = out.Write(data)
	return nil
}
