package web

import (
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"

	"gusset/demo"
)

// In the browser a traced piece is looked at and named, and a place on a printed
// sheet is pointed at where it is seen: 1 dot is 25.4/64 mm, counted from the upper
// left corner of the picture.
func TestTraceInBrowser(t *testing.T) {
	_, srv := room(t, nil)
	b := openBrowser(t, srv, "trace", 1360, 900, false)
	data, err := demo.Files.ReadFile("photos/pocket.jpg")
	if err != nil {
		t.Fatal(err)
	}
	files := map[string][]byte{"pocket.jpg": data}
	at, _, _ := sendPhotos(t, srv, "piece", demoTapes, files)
	b.do("traced", chromedp.Navigate(b.base+at), chromedp.WaitVisible("#preview img"))
	b.fits("tracing-piece")
	b.do("named", fillIn("main", "pattern", "satchel"), fillIn("main", "piece", "pocket"), fillIn("main", "edge.1", "hem"), press(`form[action$="/take"] button`))
	b.until("taken", `location.pathname === "/file/patterns/satchel/pocket.svg"`)
	at, _, _ = sendPhotos(t, srv, "sheet", demoTapes, files)
	b.do("sheet", chromedp.Navigate(b.base+at), chromedp.WaitVisible("input[type=image]"))
	b.until("the picture is there", `document.querySelector("input[type=image]").getBoundingClientRect().width > 600`)
	b.fits("tracing-sheet")
	var corner []float64
	b.do("where", chromedp.Evaluate(`(() => { const i = document.querySelector("input[type=image]"); i.scrollIntoView({block: "start", behavior: "instant"}); const r = i.getBoundingClientRect(); return [r.x, r.y, i.height]; })()`, &corner))
	x, y := corner[0]+200, corner[1]+150
	b.do("point", chromedp.MouseEvent(input.MousePressed, x, y, chromedp.ButtonLeft, chromedp.ClickCount(1)), chromedp.MouseEvent(input.MouseReleased, x, y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
	b.until("a place", `document.querySelectorAll(".over circle").length === 1`)
	var cx, cy float64
	b.do("its place", chromedp.Evaluate(`Number(document.querySelector(".over circle").getAttribute("cx"))`, &cx), chromedp.Evaluate(`Number(document.querySelector(".over circle").getAttribute("cy"))`, &cy))
	if cx < 198 || cx > 202 || cy < 148 || cy > 152 {
		t.Errorf("pointed at dot 200, 150; the place is at %.1f, %.1f", cx, cy)
	}
	b.shot("tracing-pointed")
	for _, c := range b.console {
		t.Errorf("console: %s", c)
	}
}
