package web

import (
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// A piece is dragged on the cloth with the mouse, and with a finger on a phone:
// the referee's word follows it, a pinned piece stays, the arrow keys do the same,
// and what may be cut is kept.
func TestDragged(t *testing.T) {
	for _, view := range []struct {
		name       string
		wide, high int
		mobile     bool
	}{{"bench-table", 1360, 900, false}, {"bench-phone", 390, 844, true}} {
		t.Run(view.name, func(t *testing.T) {
			web, srv := room(t, laidOut(t, "quay-cropped"))
			b := openBrowser(t, srv, view.name, view.wide, view.high, view.mobile)
			wholly(t, web, "quay-cropped")
			b.do("bench", chromedp.Navigate(b.base+"/docket/quay-cropped/cloth/main"), chromedp.WaitVisible("h1"))
			b.until("may be cut", `!!document.querySelector(".verdict.fine")`)
			b.fits("bench")
			b.drag(view.mobile, 40, 0)
			b.until("judged", `!!document.querySelector(".verdict.bad") && !!document.querySelector('.on-cloth svg g.bad') && document.querySelector('[name^="along."]').value !== document.querySelector('[name^="along."]').defaultValue`)
			b.fits("bench-dragged")
			b.do("back", chromedp.Evaluate(`location.reload()`, nil))
			b.until("as it was", `!!document.querySelector(".verdict.fine")`)
			along := `document.querySelector('[name^="along."]')`
			var was string
			b.do("arrow", chromedp.Evaluate(along+".value", &was), chromedp.Evaluate(`document.querySelector('[data-layer^="laid:"][tabindex]').focus()`, nil), chromedp.KeyEvent(kb.ArrowUp), chromedp.KeyEvent(kb.ArrowDown))
			b.until("said", `!document.querySelector(".tip").hidden`)
			b.do("pinned", chromedp.KeyEvent("p"))
			b.until("a pin", `document.querySelectorAll('.on-cloth svg g.pinned').length === 1 && !!document.querySelector('[name^="pin."]').defaultChecked`)
			b.do("pinned stays", chromedp.KeyEvent(kb.ArrowUp))
			b.shot("bench-pinned")
			b.do("keep", press(`button[value=keep]`))
			b.until("kept", `location.pathname === "/docket/quay-cropped"`)
			if text := textOf(t, web, "lays/quay-cropped-main.yaml"); !strings.Contains(text, "pinned: yes") {
				t.Errorf("kept without its pin:\n%s", text)
			}
			for _, c := range b.console {
				t.Errorf("console: %s", c)
			}
		})
	}
}

// drag takes the first piece and moves it by so many pixels of the screen.
func (b *browser) drag(finger bool, dx, dy float64) {
	b.t.Helper()
	var at []float64
	b.do("where it lies", chromedp.Evaluate(`(() => { const g = document.querySelector('[data-layer^="laid:"]'); g.scrollIntoView({block: "center", behavior: "instant"}); const r = g.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; })()`, &at))
	x, y := at[0], at[1]
	if finger {
		touch := func(kind input.TouchType, x, y float64) chromedp.Action {
			e := input.DispatchTouchEvent(kind, []*input.TouchPoint{{X: x, Y: y}})
			if kind == input.TouchEnd {
				e.TouchPoints = []*input.TouchPoint{}
			}
			return e
		}
		b.do("a finger", touch(input.TouchStart, x, y), touch(input.TouchMove, x+dx/2, y+dy/2), touch(input.TouchMove, x+dx, y+dy), touch(input.TouchEnd, x+dx, y+dy))
		return
	}
	b.do("the mouse", chromedp.MouseEvent(input.MousePressed, x, y, chromedp.ButtonLeft), chromedp.MouseEvent(input.MouseMoved, x+dx/2, y+dy/2, chromedp.ButtonLeft),
		chromedp.MouseEvent(input.MouseMoved, x+dx, y+dy, chromedp.ButtonLeft), chromedp.MouseEvent(input.MouseReleased, x+dx, y+dy, chromedp.ButtonLeft))
}
