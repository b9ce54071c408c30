package notes

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/tools/txtar"

	"captally.example/captally/analyze"
)

var update = flag.Bool("update", false, "write what the program gives into the golden files")

// A golden is one file of testdata: a report, perhaps a profile, and the notes wanted from them.
type golden struct {
	name    string
	archive *txtar.Archive
	report  *analyze.Report
	profile Profile
}

func goldens(t *testing.T) []golden {
	t.Helper()
	paths, err := filepath.Glob("testdata/*.txtar")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no golden files: %v", err)
	}
	var out []golden
	for _, path := range paths {
		a, err := txtar.ParseFile(path)
		if err != nil {
			t.Fatal(err)
		}
		g := golden{name: path, archive: a}
		for _, f := range a.Files {
			switch f.Name {
			case "report.json":
				d := json.NewDecoder(bytes.NewReader(f.Data))
				d.DisallowUnknownFields()
				if err := d.Decode(&g.report); err != nil {
					t.Fatalf("%s: report.json: %v", path, err)
				}
			case "profile.toml":
				if g.profile, err = ReadProfile("profile.toml", f.Data); err != nil {
					t.Fatalf("%s: %v", path, err)
				}
			}
		}
		if g.report == nil {
			t.Fatalf("%s has no report.json", path)
		}
		out = append(out, g)
	}
	return out
}

// forms are the forms of notes that a golden file holds.
func forms(t *testing.T, g golden) []txtar.File {
	t.Helper()
	n := Draft(g.report, g.profile)
	page, err := Handout(n)
	if err != nil {
		t.Fatal(err)
	}
	object, err := json.MarshalIndent(n, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return []txtar.File{
		{Name: "notes.txt", Data: []byte(Text(n))},
		{Name: "chapters.vtt", Data: Chapters(n)},
		{Name: "overlay.vtt", Data: Overlay(n)},
		{Name: "notes.md", Data: []byte(Markdown(n))},
		{Name: "handout.html", Data: page},
		{Name: "checklist.txt", Data: []byte(ChecklistText(Checklist(g.report, g.profile)))},
		{Name: "notes.json", Data: append(object, '\n')},
	}
}

func TestGolden(t *testing.T) {
	for _, g := range goldens(t) {
		t.Run(filepath.Base(g.name), func(t *testing.T) {
			wanted := map[string][]byte{}
			var inputs []txtar.File
			for _, f := range g.archive.Files {
				if f.Name == "report.json" || f.Name == "profile.toml" {
					inputs = append(inputs, f)
				} else {
					wanted[f.Name] = f.Data
				}
			}
			got := forms(t, g)
			if *update {
				a := &txtar.Archive{Comment: g.archive.Comment, Files: append(inputs, got...)}
				if err := os.WriteFile(g.name, txtar.Format(a), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			for _, f := range got {
				if !bytes.Equal(wanted[f.Name], f.Data) {
					t.Errorf("%s (-want +got)\n-%s\n+%s", f.Name, wanted[f.Name], f.Data)
				}
			}
		})
	}
}
