package review

import (
	"crypto/subtle"
	"net"
	"net/http"
	"strconv"
)

// policy is the Content-Security-Policy of every answer: the page's own files and nothing else, a video from the user's
// own disk, no inline script or style. (W3C, Content Security Policy Level 3.)
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; media-src 'self' blob:; " +
	"connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// A gate decides which requests reach the page. That the server listens on the loopback interface alone protects nobody:
// any page that the user's browser shows can send requests there, and so can other users of the computer.
type gate struct {
	host   string // the only Host that is answered, "127.0.0.1:4711"
	token  string // the secret of this run
	cookie string // the cookie's name; cookies know no port, so it is part of the name
	origin *http.CrossOriginProtection
}

func newGate(addr *net.TCPAddr, token string) *gate {
	return &gate{
		host:   net.JoinHostPort("127.0.0.1", strconv.Itoa(addr.Port)),
		token:  token,
		cookie: "captally-" + strconv.Itoa(addr.Port),
		origin: http.NewCrossOriginProtection(),
	}
}

// address is what the browser is sent to: the only address that works without the cookie.
func (g *gate) address() string { return "http://" + g.host + "/?token=" + g.token }

func (g *gate) guard(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		secure(w.Header())
		if reason := g.refuses(r); reason != "" {
			refuse(w, http.StatusForbidden, reason)
			return
		}
		if g.inAddress(r) {
			http.SetCookie(w, &http.Cookie{Name: g.cookie, Value: g.token, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
		}
		next.ServeHTTP(w, r)
	})
}

// refuses returns why a request is not answered, "" where it is.
func (g *gate) refuses(r *http.Request) string {
	if r.Host != g.host { // a name that an attacker makes point here (DNS rebinding)
		return "this address answers to " + g.host + " only"
	}
	if err := g.origin.Check(r); err != nil {
		return "the request comes from another site"
	}
	switch r.Header.Get("Sec-Fetch-Site") {
	case "", "none", "same-origin":
	default: // the check above lets every GET pass
		if r.URL.Path != "/" {
			return "the request comes from another site"
		}
	}
	if !g.inAddress(r) && !g.inCookie(r) {
		return "open the page at the whole address that captally review printed"
	}
	return ""
}

func (g *gate) inAddress(r *http.Request) bool {
	return r.Method == http.MethodGet && r.URL.Path == "/" && g.is(r.URL.Query().Get("token"))
}

func (g *gate) inCookie(r *http.Request) bool {
	for _, c := range r.CookiesNamed(g.cookie) {
		if g.is(c.Value) {
			return true
		}
	}
	return false
}

func (g *gate) is(token string) bool {
	return subtle.ConstantTimeCompare([]byte(token), []byte(g.token)) == 1
}

func secure(h http.Header) {
	h.Set("Content-Security-Policy", policy)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cache-Control", "no-store")
}
