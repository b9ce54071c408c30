package review

import (
	"encoding/json"
	"fmt"
	"io"
	"mime"
	"net/http"
	"os"
	"path/filepath"
	"time"
)

// start says what the page has to begin with.
func (s *Server) start(w http.ResponseWriter, r *http.Request) {
	answer(w, map[string]any{"session": s.desk.first, "video": s.video != "", "demo": len(s.desk.opt.Demo.Data) > 0, "most_bytes": maxFile}, nil)
}

func (s *Server) open(w http.ResponseWriter, r *http.Request) {
	data, err := io.ReadAll(http.MaxBytesReader(w, r.Body, maxFile))
	if err != nil {
		refuse(w, statusOf(err), fmt.Sprintf("The file is larger than %d MB, which no caption file of one session is.", maxFile>>20))
		return
	}
	sitting, err := s.desk.drop(File{Name: r.URL.Query().Get("name"), Data: data})
	s.show(w, sitting, "", err)
}

func (s *Server) demo(w http.ResponseWriter, r *http.Request) {
	sitting, err := s.desk.drop(s.desk.opt.Demo)
	s.show(w, sitting, "", err)
}

func (s *Server) session(w http.ResponseWriter, r *http.Request) {
	sitting, err := s.desk.take(r.PathValue("id"))
	s.show(w, sitting, "", err)
}

// show answers with the whole state of a session, and what was just done to it.
func (s *Server) show(w http.ResponseWriter, sitting *sitting, told string, err error) {
	if err != nil {
		answer(w, nil, err)
		return
	}
	state, err := sitting.state(told)
	answer(w, state, err)
}

func (s *Server) words(w http.ResponseWriter, r *http.Request) {
	sitting, err := s.desk.take(r.PathValue("id"))
	if err != nil {
		answer(w, nil, err)
		return
	}
	answer(w, saidIn(sitting.track), nil)
}

func (s *Server) decide(w http.ResponseWriter, r *http.Request) {
	sitting, err := s.desk.take(r.PathValue("id"))
	var told string
	if err == nil {
		var what wish
		if err = readJSON(w, r, &what); err == nil {
			told, err = sitting.decide(what)
		}
	}
	s.show(w, sitting, told, err)
}

func (s *Server) undo(w http.ResponseWriter, r *http.Request) {
	sitting, err := s.desk.take(r.PathValue("id"))
	var told string
	if err == nil {
		told, err = sitting.undo()
	}
	s.show(w, sitting, told, err)
}

func readJSON(w http.ResponseWriter, r *http.Request, value any) error {
	in := json.NewDecoder(http.MaxBytesReader(w, r.Body, maxDecision))
	in.DisallowUnknownFields()
	if err := in.Decode(value); err != nil {
		return fmt.Errorf("the request cannot be read: %w", err)
	}
	return nil
}

func (s *Server) download(w http.ResponseWriter, r *http.Request) {
	sitting, err := s.desk.take(r.PathValue("id"))
	if err != nil {
		answer(w, nil, err)
		return
	}
	file, err := sitting.file(r.PathValue("form"))
	if err != nil {
		answer(w, nil, err)
		return
	}
	w.Header().Set("Content-Type", file.kind)
	w.Header().Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": file.name}))
	_, _ = w.Write(file.data)
}

// media sends the video that was named at the start, or the part of it that the browser asks for.
func (s *Server) media(w http.ResponseWriter, r *http.Request) {
	if s.video == "" {
		answer(w, nil, missing("no video was named"))
		return
	}
	f, err := os.Open(s.video)
	if err != nil {
		answer(w, nil, fmt.Errorf("the video cannot be read: %w", plainly(err)))
		return
	}
	defer f.Close()
	var changed time.Time
	if info, err := f.Stat(); err == nil {
		changed = info.ModTime()
	}
	http.ServeContent(w, r, filepath.Base(s.video), changed, f)
}
