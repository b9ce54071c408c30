package review

import (
	"context"
	"crypto/rand"
	"embed"
	"encoding/json"
	"errors"
	"mime"
	"net"
	"net/http"
	"path"
	"sync/atomic"
	"time"
)

//go:embed page
var files embed.FS

// Limits of one request, in bytes. A caption file may be as large as the commands read.
const (
	maxFile     = 64 << 20
	maxDecision = 1 << 20
)

// A Server is the page on one address, from Listen until Serve returns.
type Server struct {
	gate     *gate
	desk     *desk
	video    string // path of the video, "" for none
	listener net.Listener
	idle     time.Duration

	busy     atomic.Int64 // requests that are being answered
	lastSeen atomic.Int64 // when the last one ended, in Unix nanoseconds
}

// Listen takes a port of the loopback interface, and no other. A port of 0 lets the system choose.
func Listen(port int, opt Options) (*Server, error) {
	listener, err := net.ListenTCP("tcp4", &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: port})
	if err != nil {
		return nil, err
	}
	s := &Server{gate: newGate(listener.Addr().(*net.TCPAddr), rand.Text()), listener: listener, video: opt.Video, idle: opt.Idle}
	if s.desk, err = newDesk(opt); err != nil {
		_ = listener.Close()
		return nil, err
	}
	s.lastSeen.Store(time.Now().UnixNano())
	return s, nil
}

// Address is where a browser finds the page, with the secret that opens it.
func (s *Server) Address() string { return s.gate.address() }

// Serve answers until ctx is done or, with Options.Idle, until nobody has been there for so long. It returns nil for both.
func (s *Server) Serve(ctx context.Context) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	server := &http.Server{Handler: s.Handler(), ReadHeaderTimeout: 5 * time.Second, ReadTimeout: time.Minute, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 16 << 10}
	go s.stopWhenIdle(ctx, cancel)
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(s.listener) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	patience, done := context.WithTimeout(context.Background(), 2*time.Second)
	defer done()
	if err := server.Shutdown(patience); err != nil {
		_ = server.Close() // a video that is still being sent
	}
	<-ended
	return nil
}

func (s *Server) stopWhenIdle(ctx context.Context, stop func()) {
	if s.idle <= 0 {
		return
	}
	tick := time.NewTicker(min(s.idle/4, 10*time.Second))
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case now := <-tick.C:
			if s.busy.Load() == 0 && now.UnixNano()-s.lastSeen.Load() >= int64(s.idle) {
				stop()
				return
			}
		}
	}
}

// Handler answers the page's requests. No GET changes anything, and no path of an address reaches the disk.
func (s *Server) Handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", func(w http.ResponseWriter, r *http.Request) { serveFile(w, "index.html") })
	mux.HandleFunc("GET /page/{file}", func(w http.ResponseWriter, r *http.Request) { serveFile(w, r.PathValue("file")) })
	mux.HandleFunc("GET /media", s.media)
	mux.HandleFunc("GET /api/start", s.start)
	mux.HandleFunc("GET /api/session/{id}", s.session)
	mux.HandleFunc("GET /api/session/{id}/words", s.words)
	mux.HandleFunc("GET /api/session/{id}/download/{form}", s.download)
	mux.HandleFunc("POST /api/open", s.open)
	mux.HandleFunc("POST /api/demo", s.demo)
	mux.HandleFunc("POST /api/here", func(w http.ResponseWriter, r *http.Request) { w.WriteHeader(http.StatusNoContent) })
	mux.HandleFunc("POST /api/session/{id}/decide", s.decide)
	mux.HandleFunc("POST /api/session/{id}/undo", s.undo)
	return s.gate.guard(s.seen(mux))
}

// seen notes that somebody is there. Requests that were refused do not count.
func (s *Server) seen(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.busy.Add(1)
		defer func() {
			s.lastSeen.Store(time.Now().UnixNano())
			s.busy.Add(-1)
		}()
		next.ServeHTTP(w, r)
	})
}

func serveFile(w http.ResponseWriter, name string) {
	data, err := files.ReadFile(path.Join("page", path.Base(name)))
	if err != nil {
		refuse(w, http.StatusNotFound, "there is no such page")
		return
	}
	w.Header().Set("Content-Type", mime.TypeByExtension(path.Ext(name)))
	switch path.Ext(name) { // the system's own table may be wrong or missing
	case ".js":
		w.Header().Set("Content-Type", "text/javascript; charset=utf-8")
	case ".css":
		w.Header().Set("Content-Type", "text/css; charset=utf-8")
	case ".html":
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
	}
	_, _ = w.Write(data)
}

// answer writes a JSON answer, or what went wrong.
func answer(w http.ResponseWriter, value any, err error) {
	if err != nil {
		refuse(w, statusOf(err), sentence(err))
		return
	}
	writeJSON(w, http.StatusOK, value)
}

func statusOf(err error) int {
	var tooLarge *http.MaxBytesError
	switch {
	case errors.As(err, &tooLarge):
		return http.StatusRequestEntityTooLarge
	case errors.As(err, new(missing)):
		return http.StatusNotFound
	}
	return http.StatusUnprocessableEntity
}

// A missing is what the page asks for and is not there.
type missing string

func (m missing) Error() string { return string(m) }

func refuse(w http.ResponseWriter, status int, reason string) {
	writeJSON(w, status, map[string]string{"error": reason})
}

func writeJSON(w http.ResponseWriter, status int, value any) {
	data, err := json.Marshal(value)
	if err != nil {
		status, data = http.StatusInternalServerError, []byte(`{"error":"the answer could not be written"}`)
	}
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.WriteHeader(status)
	_, _ = w.Write(data)
}
