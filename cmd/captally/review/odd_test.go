package review

import (
	"bytes"
	"io"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"captally.example/captally/cmd/captally/keep"
)

// decideSide decides on the side of the first set.
func decideSide(h *hand) (state, string) {
	return h.ask("decide", map[string]any{"set": h.now().Sets[0].Key, "change": map[string]string{"side": "left"}})
}

// A file of decisions that becomes unreadable while the page is open is told and left as it is.
func TestDecisionsBrokenMeanwhile(t *testing.T) {
	h, name := handOn(t, twoSets)
	key := h.now().Sets[0].Key
	const broken = "{\n\"captally_decisions\": 1,\n\"made\": [{]\n"
	if err := os.WriteFile(keep.Beside(name), []byte(broken), 0o600); err != nil {
		t.Fatal(err)
	}
	_, refused := h.ask("decide", map[string]any{"set": key, "change": map[string]string{"side": "left"}})
	if !strings.HasPrefix(refused, "What you settled before cannot be read: ") || !strings.Contains(refused, "captally.json:3: ") {
		t.Errorf("told %q", refused)
	}
	if data, _ := os.ReadFile(keep.Beside(name)); string(data) != broken {
		t.Errorf("the file is now %q", data)
	}
}

// One that is broken at the start is moved aside, and the page says where it is; one of a later version stays, and nothing opens.
func TestDecisionsBrokenBefore(t *testing.T) {
	name := filepath.Join(t.TempDir(), "session.vtt")
	file := &File{Name: name, Data: []byte(twoSets)}
	if err := os.WriteFile(keep.Beside(name), []byte("no JSON"), 0o600); err != nil {
		t.Fatal(err)
	}
	s, client, base := served(t, Options{File: file})
	now := (&hand{t, client, base, s.desk.first}).now()
	if len(now.Warnings) != 1 || !strings.Contains(now.Warnings[0], "is kept as "+keep.Beside(name)+".broken-1") {
		t.Errorf("told %q", now.Warnings)
	}
	if err := os.WriteFile(keep.Beside(name), []byte(`{"captally_decisions": 9}`), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := newDesk(Options{File: file}); err == nil || !strings.Contains(err.Error(), "of a later captally") {
		t.Errorf("opened in spite of a later version: %v", err)
	}
	if _, err := os.Stat(keep.Beside(name)); err != nil {
		t.Error(err)
	}
}

// Where the folder is gone, a decision is refused in words, and no folder is made; the page goes on.
func TestFolderGone(t *testing.T) {
	h, name := handOn(t, twoSets)
	if err := os.RemoveAll(filepath.Dir(name)); err != nil {
		t.Fatal(err)
	}
	_, refused := decideSide(h)
	if !strings.HasPrefix(refused, "This was not saved: "+keep.Beside(name)+" cannot be written (") {
		t.Errorf("told %q", refused)
	}
	if _, err := os.Stat(filepath.Dir(name)); err == nil {
		t.Error("the folder was made again")
	}
	if now := h.now(); len(now.Sets) != 2 || len(now.Changes) != 0 {
		t.Errorf("the page shows %d sets and %q", len(now.Sets), now.Changes)
	}
}

// What was settled of a dropped file is there when the same captions are opened from their place, and what is decided goes there.
func TestDroppedBefore(t *testing.T) {
	folder, name := t.TempDir(), filepath.Join(t.TempDir(), "session.vtt")
	s, client, base := served(t, Options{Folder: folder})
	dropped, err := s.desk.drop(File{Name: name, Data: []byte(twoSets)})
	if err != nil {
		t.Fatal(err)
	}
	if _, refused := decideSide(&hand{t, client, base, dropped.id}); refused != "" {
		t.Fatal(refused)
	}
	s, client, base = served(t, Options{Folder: folder, File: &File{Name: name, Data: []byte(twoSets)}})
	if now := (&hand{t, client, base, s.desk.first}).now(); len(now.Changes) != 1 || filepath.Dir(now.Kept) != folder {
		t.Errorf("found %q in %s", now.Changes, now.Kept)
	}
	if _, err := keep.Append(keep.Beside(name), name, []byte(twoSets), nil); err != nil {
		t.Fatal(err)
	}
	s, client, base = served(t, Options{Folder: folder, File: &File{Name: name, Data: []byte(twoSets)}})
	if now := (&hand{t, client, base, s.desk.first}).now(); len(now.Changes) != 0 || len(now.Warnings) != 1 || !strings.Contains(now.Warnings[0], folder) {
		t.Errorf("of two files: %q, told %q", now.Changes, now.Warnings)
	}
}

func TestWhatCannotBeOpened(t *testing.T) {
	_, client, base := served(t, Options{Folder: t.TempDir()})
	for _, test := range []struct{ name, data, want string }{
		{"empty.srt", "", `{"error":"empty.srt: the file is empty."}`},
		{"Übung.srt", "", `{"error":"Übung.srt: the file is empty."}`},
		{"letter.txt", "Dear all,\n", `{"error":"letter.txt: no times found`},
		{"film.srt", "\x00\x00\x00\x20ftypisom", `{"error":"film.srt: this is a video`},
		{"huge.srt", strings.Repeat("x", maxFile+1), `{"error":"The file is larger than 64 MB, which no caption file of one session is."}`},
	} {
		resp, err := client.Post(base+"/api/open?name="+url.QueryEscape(test.name), "application/octet-stream", bytes.NewReader([]byte(test.data)))
		if err != nil {
			t.Fatal(err)
		}
		data, _ := io.ReadAll(resp.Body)
		_ = resp.Body.Close()
		if resp.StatusCode/100 != 4 || !strings.HasPrefix(string(data), test.want) {
			t.Errorf("%s: %d %s, want %s", test.name, resp.StatusCode, data, test.want)
		}
	}
}

func TestNameThatIsNotASCII(t *testing.T) {
	name := filepath.Join(t.TempDir(), "Knie – Übung 膝.vtt")
	_, client, base := served(t, Options{File: &File{Name: name, Data: []byte(twoSets)}})
	resp, err := client.Get(base + "/api/session/" + idOf([]byte(twoSets)) + "/download/chapters")
	if err != nil {
		t.Fatal(err)
	}
	_ = resp.Body.Close()
	// RFC 6266 and RFC 8187: filename*=utf-8''...
	if got, want := resp.Header.Get("Content-Disposition"), "filename*=utf-8''Knie%20%E2%80%93%20%C3%9Cbung%20%E8%86%9D.chapters.vtt"; resp.StatusCode != http.StatusOK || !strings.Contains(got, want) {
		t.Errorf("%d, %s", resp.StatusCode, got)
	}
}
