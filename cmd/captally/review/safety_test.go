package review

import (
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

const shortCaptions = "WEBVTT\n\n00:01.000 --> 00:04.000\nHeel raises, three of them.\n\n00:05.000 --> 00:06.000\nOne.\n\n00:08.000 --> 00:09.000\nTwo.\n\n00:11.000 --> 00:12.000\nThree. And rest.\n"

// served starts a page on one named file and a client that holds its cookie.
func served(t *testing.T, opt Options) (*Server, *http.Client, string) {
	t.Helper()
	if opt.File == nil {
		name := filepath.Join(t.TempDir(), "short.vtt")
		if err := os.WriteFile(name, []byte(shortCaptions), 0o600); err != nil {
			t.Fatal(err)
		}
		opt.File = &File{Name: name, Data: []byte(shortCaptions)}
	}
	s, err := Listen(0, opt)
	if err != nil {
		t.Fatal(err)
	}
	done := make(chan error, 1)
	go func() { done <- s.Serve(t.Context()) }()
	t.Cleanup(func() {
		if err := <-done; err != nil {
			t.Error(err)
		}
	})
	jar := &oneCookie{}
	client := &http.Client{Jar: jar}
	t.Cleanup(client.CloseIdleConnections)
	resp, err := client.Get(s.Address())
	if err != nil {
		t.Fatal(err)
	}
	_ = resp.Body.Close()
	if len(jar.cookies) != 1 || !jar.cookies[0].HttpOnly || jar.cookies[0].SameSite != http.SameSiteStrictMode {
		t.Fatalf("the first address sets %v, want one HttpOnly, SameSite=Strict cookie", jar.cookies)
	}
	return s, client, "http://" + s.gate.host
}

type oneCookie struct{ cookies []*http.Cookie }

func (j *oneCookie) SetCookies(_ *url.URL, c []*http.Cookie) { j.cookies = c }
func (j *oneCookie) Cookies(*url.URL) []*http.Cookie         { return j.cookies }

func TestRefusals(t *testing.T) {
	s, client, base := served(t, Options{})
	id := s.desk.first
	stranger := &http.Client{}
	body := `{}`
	for _, x := range []struct {
		what, method, path string
		client             *http.Client
		headers            map[string]string
		want               int
	}{
		{"the page itself", "GET", "/", client, nil, 200},
		{"its state", "GET", "/api/session/" + id, client, nil, 200},
		{"from the page", "GET", "/api/session/" + id, client, map[string]string{"Sec-Fetch-Site": "same-origin"}, 200},
		{"an undo from the page, with nothing to undo", "POST", "/api/session/" + id + "/undo", client, map[string]string{"Sec-Fetch-Site": "same-origin"}, 422},
		{"a sign of life", "POST", "/api/here", client, map[string]string{"Origin": base}, 204},

		{"a foreign name", "GET", "/", client, map[string]string{"Host": "evil.example"}, 403},
		{"a name that points here", "GET", "/api/session/" + id, client, map[string]string{"Host": "localhost:" + strings.Split(s.gate.host, ":")[1]}, 403},
		{"another port in the name", "GET", "/", client, map[string]string{"Host": "127.0.0.1:1"}, 403},
		{"no port in the name", "GET", "/", client, map[string]string{"Host": "127.0.0.1"}, 403},

		{"a foreign origin", "POST", "/api/here", client, map[string]string{"Origin": "https://evil.example"}, 403},
		{"another port as origin", "POST", "/api/here", client, map[string]string{"Origin": "http://127.0.0.1:1"}, 403},
		{"no origin at all, as from a sandboxed frame", "POST", "/api/here", client, map[string]string{"Origin": "null"}, 403},
		{"another site", "POST", "/api/here", client, map[string]string{"Sec-Fetch-Site": "cross-site"}, 403},
		{"another port of this computer", "POST", "/api/here", client, map[string]string{"Sec-Fetch-Site": "same-site"}, 403},
		{"reading from another site", "GET", "/api/session/" + id, client, map[string]string{"Sec-Fetch-Site": "cross-site"}, 403},
		{"reading from another port", "GET", "/media", client, map[string]string{"Sec-Fetch-Site": "same-site"}, 403},

		{"no secret", "GET", "/", stranger, nil, 403},
		{"no secret for the state", "GET", "/api/session/" + id, stranger, nil, 403},
		{"no secret for a file of the page", "GET", "/page/page.css", stranger, nil, 403},
		{"no secret for the video", "GET", "/media", stranger, nil, 403},
		{"no secret for a decision", "POST", "/api/session/" + id + "/undo", stranger, nil, 403},
		{"a wrong secret", "GET", "/?token=AAAAAAAAAAAAAAAAAAAAAAAAAA", stranger, nil, 403},
		{"the secret in another address", "GET", "/api/start?token=" + s.gate.token, stranger, nil, 403},
		{"a wrong cookie", "GET", "/", stranger, map[string]string{"Cookie": s.gate.cookie + "=A"}, 403},

		{"deciding by GET", "GET", "/api/session/" + id + "/decide", client, nil, 405},
		{"undoing by GET", "GET", "/api/session/" + id + "/undo", client, nil, 405},
		{"opening by GET", "GET", "/api/open", client, nil, 405},
		{"the built-in session by GET", "GET", "/api/demo", client, nil, 405},
		{"a method nobody uses", "DELETE", "/api/session/" + id, client, nil, 405},

		{"a file of the disk", "GET", "/page/..%2f..%2fsafety.go", client, nil, 404},
		{"a file of the disk by its path", "GET", "/etc/passwd", client, nil, 404},
		{"a video that was not named", "GET", "/media", client, nil, 404},
		{"a session that is not open", "GET", "/api/session/00000000000000000000000000000000", client, nil, 404},
	} {
		t.Run(x.what, func(t *testing.T) {
			var in io.Reader
			if x.method == "POST" {
				in = strings.NewReader(body)
			}
			req, err := http.NewRequest(x.method, base+x.path, in)
			if err != nil {
				t.Fatal(err)
			}
			for k, v := range x.headers {
				req.Header.Set(k, v)
			}
			req.Host = x.headers["Host"]
			resp, err := x.client.Do(req)
			if err != nil {
				t.Fatal(err)
			}
			defer resp.Body.Close()
			said, _ := io.ReadAll(resp.Body)
			if resp.StatusCode != x.want {
				t.Errorf("%s %s is answered with %d, want %d: %.200s", x.method, x.path, resp.StatusCode, x.want, said)
			}
			for name, want := range map[string]string{"Content-Security-Policy": policy, "X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer",
				"Cross-Origin-Opener-Policy": "same-origin", "Cross-Origin-Resource-Policy": "same-origin", "Cache-Control": "no-store", "Access-Control-Allow-Origin": ""} {
				if got := resp.Header.Get(name); got != want {
					t.Errorf("%s is %q, want %q", name, got, want)
				}
			}
			if x.want == 403 && (strings.Contains(string(said), "Heel") || len(resp.Cookies()) > 0) {
				t.Errorf("a refusal gives something away: %s", said)
			}
		})
	}
}

func TestOnlyTheLoopbackInterface(t *testing.T) {
	s, _, _ := served(t, Options{})
	if host, _, _ := strings.Cut(s.listener.Addr().String(), ":"); host != "127.0.0.1" {
		t.Errorf("it listens on %s", host)
	}
}

func TestTooLarge(t *testing.T) {
	_, client, base := served(t, Options{Folder: t.TempDir()})
	resp, err := client.Post(base+"/api/open?name=a.vtt", "application/octet-stream", io.LimitReader(letters{}, maxFile+1))
	if err != nil {
		t.Fatal(err)
	}
	_ = resp.Body.Close()
	if resp.StatusCode != http.StatusRequestEntityTooLarge {
		t.Errorf("a file beyond the limit is answered with %d", resp.StatusCode)
	}
}

type letters struct{}

func (letters) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = 'a'
	}
	return len(p), nil
}

func TestStopsWhenNobodyIsThere(t *testing.T) {
	s, err := Listen(0, Options{Idle: 80 * time.Millisecond})
	if err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(t.Context()) }()
	began := time.Now()
	for time.Since(began) < 250*time.Millisecond { // somebody is there
		w := httptest.NewRecorder()
		r := httptest.NewRequest("GET", s.Address(), nil)
		s.Handler().ServeHTTP(w, r)
		if w.Code != 200 {
			t.Fatalf("answered with %d", w.Code)
		}
		select {
		case <-ended:
			t.Fatal("it stopped while somebody was there")
		case <-time.After(10 * time.Millisecond):
		}
	}
	select {
	case err := <-ended:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(10 * time.Second):
		t.Fatal("it does not stop")
	}
}
