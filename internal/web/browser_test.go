package web

import (
	"archive/zip"
	"context"
	"fmt"
	"io/fs"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"gusset/demo"
)

// shotsEnv names a folder for pictures of the pages, to be looked at.
const shotsEnv = "GUSSET_SHOTS"

// browser is a real browser with one page open; what its console says is kept.
type browser struct {
	t       *testing.T
	ctx     context.Context
	base    string
	name    string
	lock    sync.Mutex
	console []string
	away    bool // the network has been taken away: failures are wanted
}

// open starts Debian's chromium with a window of the given size.
func openBrowser(t *testing.T, srv *httptest.Server, name string, wide, high int, mobile bool) *browser {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("needs Debian's chromium")
	}
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("a whole browser: left out of the quick run")
	}
	// By itself chromedp has the browser killed when the thread that began it ends
	// (prctl(2), PR_SET_PDEATHSIG), and threads of work behind the pages do end.
	lasting := chromedp.ModifyCmdFunc(func(*exec.Cmd) {})
	opts := append(chromedp.DefaultExecAllocatorOptions[:], lasting, chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.WindowSize(wide, high), chromedp.WSURLReadTimeout(2*time.Minute))
	ctx, stop := chromedp.NewExecAllocator(context.Background(), opts...)
	t.Cleanup(stop)
	ctx, end := chromedp.NewContext(ctx)
	t.Cleanup(end)
	ctx, late := context.WithTimeout(ctx, 9*time.Minute)
	t.Cleanup(late)
	b := &browser{t: t, ctx: ctx, base: srv.URL, name: name}
	chromedp.ListenTarget(ctx, b.hear)
	scale := 1.0
	if mobile {
		scale = 2
	}
	b.do("start", network.Enable(), log.Enable(), emulation.SetDeviceMetricsOverride(int64(wide), int64(high), scale, mobile))
	return b
}

func (b *browser) hear(ev any) {
	b.lock.Lock()
	defer b.lock.Unlock()
	switch e := ev.(type) {
	case *runtime.EventExceptionThrown:
		b.console = append(b.console, e.ExceptionDetails.Error())
	case *runtime.EventConsoleAPICalled:
		if e.Type == runtime.APITypeError || e.Type == runtime.APITypeWarning {
			b.console = append(b.console, fmt.Sprint(e.Type, e.Args))
		}
	case *log.EventEntryAdded:
		if e.Entry.Level == log.LevelError && !b.away {
			b.console = append(b.console, e.Entry.Text+" "+e.Entry.URL)
		}
	}
}

// do does what a person does. A leaf that is put in anew between looking for a
// field and typing into it is looked at again: the actions begin once more, and
// none of them adds to what it did the first time.
func (b *browser) do(what string, actions ...chromedp.Action) {
	b.t.Helper()
	err := chromedp.Run(b.ctx, actions...)
	for tries := 0; err != nil && tries < 20 && gone(err); tries++ {
		time.Sleep(100 * time.Millisecond)
		err = chromedp.Run(b.ctx, actions...)
	}
	if err != nil {
		b.shot("failed")
		b.t.Fatalf("%s, %s: %v; console: %q", b.name, what, err, b.console)
	}
}

// gone tells the browser's errors for a node that is no longer in the page, or
// not yet.
func gone(err error) bool {
	for _, words := range []string{"properties of null", "Could not find node", "No node with given id", "Node is detached", "does not belong to the document"} {
		if strings.Contains(err.Error(), words) {
			return true
		}
	}
	return false
}

// until waits for a script to come out true; pages may come and go meanwhile.
func (b *browser) until(what, script string) {
	b.t.Helper()
	await := func(p *runtime.EvaluateParams) *runtime.EvaluateParams { return p.WithAwaitPromise(true) }
	script = `(async () => document.readyState === "complete" && await (` + script + `))()`
	var last error
	for range 900 {
		var yes bool
		if last = chromedp.Run(b.ctx, chromedp.Evaluate(script, &yes, await)); yes {
			return
		}
		select {
		case <-b.ctx.Done():
			b.t.Fatalf("%s, %s: %v", b.name, what, b.ctx.Err())
		case <-time.After(200 * time.Millisecond):
		}
	}
	b.shot("failed")
	var body string
	_ = chromedp.Run(b.ctx, chromedp.Text("main", &body, chromedp.ByQuery))
	b.t.Fatalf("%s, %s: never; %v; console: %q; the page:\n%.2000s", b.name, what, last, b.console, body)
}

// shot takes a picture of the whole page where somebody wants to look at it.
func (b *browser) shot(page string) {
	folder := os.Getenv(shotsEnv)
	if folder == "" {
		return
	}
	var png []byte
	if err := chromedp.Run(b.ctx, chromedp.FullScreenshot(&png, 100)); err != nil {
		b.t.Log(err)
		return
	}
	if err := os.WriteFile(filepath.Join(folder, b.name+"-"+page+".png"), png, 0o644); err != nil {
		b.t.Error(err)
	}
}

// fits tells when a page is wider than the window: nobody wants to push a page
// to and fro.
func (b *browser) fits(page string) {
	b.t.Helper()
	var wide, window int
	b.do("measure "+page, chromedp.Evaluate(`document.documentElement.scrollWidth`, &wide), chromedp.Evaluate(`document.documentElement.clientWidth`, &window))
	if wide > window {
		b.t.Errorf("%s: %s is %d wide in a window of %d", b.name, page, wide, window)
	}
	b.shot(page)
	b.access(page)
}

// axeEnv names the file of axe-core, which ./check fetches: the rules of WCAG
// that can be tried by a program.
const axeEnv = "GUSSET_AXE"

// access tells what on a page hinders those who do not see it, or use no mouse.
func (b *browser) access(page string) {
	b.t.Helper()
	file := os.Getenv(axeEnv)
	if file == "" {
		return
	}
	axe, err := os.ReadFile(file)
	if err != nil {
		b.t.Fatal(err)
	}
	var found []string
	await := func(p *runtime.EvaluateParams) *runtime.EvaluateParams { return p.WithAwaitPromise(true) }
	b.do("axe on "+page, chromedp.Evaluate(string(axe)+";true", nil), chromedp.Evaluate(`axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]}).then((r) =>
		r.violations.filter((v) => ["serious", "critical"].includes(v.impact)).map((v) => v.id + ": " + v.nodes.slice(0, 4).map((n) => n.target.join(" ") + " " + n.failureSummary.replace(/\s+/g, " ")).join("; ")))`, &found, await))
	for _, f := range found {
		b.t.Errorf("%s, %s: %s", b.name, page, f)
	}
}

// Every page that shows the demo's workroom, in light and in the dark, is told
// nothing serious by axe-core.
func TestAccess(t *testing.T) {
	if os.Getenv(axeEnv) == "" {
		t.Skip("needs " + axeEnv + ", the file of axe-core")
	}
	web, srv := room(t, laidOut(t, "quay-cropped"))
	wholly(t, web, "quay-cropped")
	b := openBrowser(t, srv, "access", 390, 844, true)
	for _, scheme := range []string{"light", "dark"} {
		b.do("the room is "+scheme, emulation.SetEmulatedMedia().WithFeatures([]*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}))
		for _, p := range []string{"/", "/docket/quay-cropped", "/docket/quay-cropped/cloth/main", "/trace", "/file/cloths/rust-drill.yaml?line=3", "/changes", "/sign-in", "/docket/hat"} {
			b.do(p, chromedp.Navigate(b.base+p), chromedp.WaitVisible("h1"))
			b.until("whole", "true")
			b.fits(scheme + strings.Trim(strings.NewReplacer("/", "-", "?", "-", "=", "-").Replace(p), "-"))
		}
	}
}

// archiveOf packs the demo's files except those of some folders.
func archiveOf(t *testing.T, without ...string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "room.zip")
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z := zip.NewWriter(f)
	err = fs.WalkDir(demo.Files, ".", func(p string, d fs.DirEntry, err error) error {
		for _, w := range without {
			if strings.HasPrefix(p, w) {
				return nil
			}
		}
		if err != nil || d.IsDir() {
			return err
		}
		data, err := demo.Files.ReadFile(p)
		if err != nil {
			return err
		}
		w, err := z.Create(p)
		if err == nil {
			_, err = w.Write(data)
		}
		return err
	})
	if err == nil {
		err = z.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
	return name
}

// The whole job in a real browser, from an empty workroom to sheets in hand and
// steps ticked while the network is away, at the table and on a phone, without
// an error on the console.
func TestWholeJob(t *testing.T) {
	for _, view := range []struct {
		name       string
		wide, high int
		mobile     bool
	}{{"table", 1360, 900, false}, {"phone", 390, 844, true}} {
		t.Run(view.name, func(t *testing.T) {
			web, srv := room(t, nil)
			b := openBrowser(t, srv, view.name, view.wide, view.high, view.mobile)
			b.takeIn()
			b.begin()
			b.change()
			b.typing()
			b.print()
			b.look()
			b.sew(web, "quay-for-finch")
			b.lock.Lock()
			defer b.lock.Unlock()
			for _, c := range b.console {
				t.Errorf("console: %s", c)
			}
		})
	}
}

// The work at the machine by itself, on a phone and in a low window: what is
// ticked while the network is away is there again when the page is loaded without
// it, and kept when it is back.
func TestNetworkAway(t *testing.T) {
	for _, view := range []struct {
		name       string
		wide, high int
		mobile     bool
	}{{"away-phone", 390, 844, true}, {"away-table", 1360, 700, false}} {
		t.Run(view.name, func(t *testing.T) {
			web, srv := room(t, demo.Files)
			b := openBrowser(t, srv, view.name, view.wide, view.high, view.mobile)
			b.do("docket", chromedp.Navigate(b.base+"/docket/quay-cropped"))
			b.until("made", `!!document.querySelector('#order a.go')`)
			b.sew(web, "quay-cropped")
		})
	}
}

// takeIn brings the pattern and the machines into an empty workroom.
func (b *browser) takeIn() {
	b.do("empty shelf", chromedp.Navigate(b.base+"/"), chromedp.WaitVisible("h1"))
	b.fits("empty-shelf")
	b.do("take in", chromedp.Evaluate(`document.querySelector('form[action="/take-in"]').closest("details").open = true`, nil),
		chromedp.SetUploadFiles(`input[name=archive]`, []string{archiveOf(b.t, "dockets", "bodies", "cloths/rust-drill")}, chromedp.ByQuery),
		press(`form[action="/take-in"] button`))
	b.until("taken in", `!!document.querySelector('a[href="/file/cloths/calico.yaml"]')`)
}

// fillIn types into a form's field. It is found and filled in one turn of the
// page, so that it cannot be put in anew between the two.
func fillIn(form, name, text string) chromedp.Action {
	return chromedp.Evaluate(fmt.Sprintf(`(() => {
		const f = document.querySelector(%q);
		f.scrollIntoView({block: "center"});
		f.focus();
		f.value = %q;
		f.dispatchEvent(new Event("input", {bubbles: true}));
		f.dispatchEvent(new Event("change", {bubbles: true}));
	})()`, fmt.Sprintf(`%s [name="%s"]`, form, name), text), nil)
}

// press puts the pointer on something and presses it, as a person does: again
// when it has moved away or was put in anew under the pointer.
func press(sel string) chromedp.Action {
	heed := fmt.Sprintf(`(() => {
		window.pressed = false;
		addEventListener("click", (e) => { if (e.target.closest(%q)) window.pressed = true; }, {capture: true, once: true});
	})()`, sel)
	return chromedp.ActionFunc(func(ctx context.Context) error {
		var err error
		for range 20 {
			if err = (chromedp.Tasks{chromedp.Evaluate(heed, nil), chromedp.Click(sel, chromedp.ByQuery)}).Do(ctx); err != nil && !gone(err) {
				return err
			}
			var missed bool
			if err == nil {
				// A page that is going away, or has gone, was pressed.
				_ = chromedp.Evaluate(`window.pressed === false`, &missed).Do(ctx)
				if !missed {
					return nil
				}
				err = fmt.Errorf("%s: pressed, and it was not met", sel)
			}
			time.Sleep(200 * time.Millisecond)
		}
		return err
	})
}

// begin makes body, cloth and docket.
func (b *browser) begin() {
	opened := func(folder string) (string, chromedp.Action) {
		form := fmt.Sprintf(`form:has(input[name="folder"][value="%s"])`, folder)
		return form, chromedp.Evaluate(fmt.Sprintf("document.querySelector('%s').closest('details').open = true", form), nil)
	}
	form, open := opened("bodies")
	b.do("new body", open, fillIn(form, "name", "Finch"), fillIn(form, "waist-at", "natural"), fillIn(form, "measures.waist", "31 1/4 in"),
		fillIn(form, "measures.hip", "98,5 cm"), press(form+" button"))
	b.until("body", `location.pathname === "/file/bodies/finch.yaml"`)
	b.do("thigh", fillIn("main", "measures.thigh", "58 cm"), fillIn("main", "measures.inside-leg", "76 cm"))
	b.fits("body")
	b.do("kept", press(`form:has(input[name="by"]) button`))
	b.until("body kept", `document.querySelector("textarea.file").value.includes("thigh: 58 cm")`)
	b.do("shelf", chromedp.Navigate(b.base+"/"))
	form, open = opened("cloths")
	b.do("new cloth", open, fillIn(form, "name", "amber twill"), fillIn(form, "width", "150 cm"), fillIn(form, "length", "2.4 m"),
		fillIn(form, "direction", "two-way"), fillIn(form, "thickness", "0.6 mm"), fillIn(form, "washed", "yes"), press(form+" button"))
	b.until("cloth", `location.pathname === "/file/cloths/amber-twill.yaml"`)
	b.fits("cloth")
	b.do("shelf again", chromedp.Navigate(b.base+"/"))
	form, _ = opened("dockets")
	b.do("new docket", fillIn(form, "name", "Quay for Finch"), fillIn(form, "body", "finch"), fillIn(form, "pattern", "quay/long"), press(form+" button"))
	b.until("docket", `location.pathname === "/docket/quay-for-finch"`)
}

// change chooses cloths and a size and narrows the hem: pieces follow without
// the page being loaded again.
func (b *browser) change() {
	cloths := `form[action$="/edit/cloths"]`
	b.do("cloths", chromedp.Evaluate("window.sameWindow = true", nil), chromedp.Evaluate(`document.querySelector('`+cloths+`').closest("details").open = true`, nil),
		fillIn(cloths, "cloths.main", "amber-twill"), fillIn(cloths, "cloths.pocketing", "calico"), fillIn(cloths, "cloths.interfacing", "woven-fusible"),
		press(cloths+" button"))
	b.until("cloths chosen", `!document.querySelector(".waiting") && ["main=amber-twill", "pocketing=calico", "interfacing=woven-fusible"].every((c) => {
		const [role, name] = c.split("=");
		return document.querySelector('`+cloths+` [name="cloths.' + role + '"]').getAttribute("value") === name;
	})`)
	add := `form:has(input[name="kind"][value="hem-girth"])`
	b.do("add", chromedp.Evaluate(`for (let d = document.querySelector('`+add+`'); d; d = d.parentElement) if (d.tagName === "DETAILS") d.open = true`, nil),
		fillIn(add, "to", "44 cm"), fillIn(add, "from", "knee"), fillIn(add, "id", "narrow"))
	b.shot("adding")
	b.do("add it", press(add+" button"))
	b.until("added", `!document.querySelector(".waiting") && !!document.querySelector("#change-narrow form")`)
	b.do("a number changed", chromedp.Evaluate(`(() => { const i = document.querySelector('#change-narrow [name="to"]'); i.value = "46 cm"; i.dispatchEvent(new Event("change", {bubbles: true})); })()`, nil))
	b.until("the hem follows", `/46 cm/.test(document.querySelector("#change-narrow > p").textContent)`)
	b.do("refused", chromedp.Evaluate(`(() => { const i = document.querySelector('#change-narrow [name="to"]'); i.value = "wide"; i.dispatchEvent(new Event("change", {bubbles: true})); })()`, nil))
	b.until("told", `!!document.querySelector("#changes .refused") && document.querySelector('#change-narrow [name="to"]').value === "wide"`)
	b.shot("refused")
	b.until("in the same window", `window.sameWindow === true`)
	b.forgive("422")
	b.do("again", chromedp.Navigate(b.base+"/docket/quay-for-finch"))
}

// forgive drops from the console that a refused form was refused.
func (b *browser) forgive(word string) {
	b.lock.Lock()
	defer b.lock.Unlock()
	var rest []string
	for _, c := range b.console {
		if !strings.Contains(c, word) {
			rest = append(rest, c)
		}
	}
	b.console = rest
}

// print waits for the lays and takes every sheet.
func (b *browser) print() {
	b.until("sheets", `document.querySelectorAll(".sheets a").length === 7`)
	b.fits("docket")
	var sizes map[string]int
	b.do("take the sheets", chromedp.Evaluate(`(async () => { const out = {}; for (const a of document.querySelectorAll(".sheets a")) { const t = await (await fetch(a.href)).text(); out[a.href] = t.startsWith("%PDF-1.") ? t.length : 0; } return out; })()`, &sizes,
		func(p *runtime.EvaluateParams) *runtime.EvaluateParams { return p.WithAwaitPromise(true) }))
	for name, n := range sizes {
		if n < 2000 {
			b.t.Errorf("%s: %s is no PDF, or empty", b.name, name)
		}
	}
	if len(sizes) != 7 {
		b.t.Errorf("%s: %d sheets", b.name, len(sizes))
	}
}

// look has better lays looked for, and stops it.
func (b *browser) look() {
	b.do("look", press(`form[action$="/look"] button[value=look]`))
	b.until("looking", `!!document.querySelector('form[action$="/look"] button[value=stop]')`)
	b.until("news of it", `/ m, /.test(document.querySelector("#cloth .news").textContent)`)
	b.shot("looking")
	b.do("stop", press(`form[action$="/look"] button[value=stop]`))
	b.until("stopped", `!!document.querySelector('form[action$="/look"] button[value=look]') && document.querySelectorAll(".sheets a").length === 7`)
}

// typing holds that what is being typed into one form outlasts another being
// sent: two fields of the sizes changed at once are both kept.
func (b *browser) typing() {
	b.do("two sizes at once", chromedp.Evaluate(`(() => { for (const [z, v] of [["waist", "14"], ["hip", "13"]]) { const i = document.querySelector('[name="zone.' + z + '"]'); i.value = v; i.dispatchEvent(new Event("change", {bubbles: true})); } document.querySelector('#changes [name="id"]').value = "half"; })()`, nil))
	b.until("both kept", `!document.querySelector(".waiting") && document.querySelector('[name="zone.waist"]').getAttribute("value") === "14" && document.querySelector('[name="zone.hip"]').getAttribute("value") === "13"`)
	b.until("what is half typed", `document.querySelector('#changes [name="id"]').value === "half" && !document.querySelector(".refused")`)
	const hip = `document.querySelector('[name="zone.hip"]')`
	anew := chromedp.Evaluate(`texts.clear(); refresh()`, nil, func(p *runtime.EvaluateParams) *runtime.EvaluateParams { return p.WithAwaitPromise(true) })
	b.do("a number, put in anew half way and before it is left", chromedp.Evaluate(hip+`.focus(); `+hip+`.select()`, nil),
		chromedp.KeyEvent("12"), anew, chromedp.KeyEvent(".5"), anew, chromedp.KeyEvent("\t"))
	b.until("all of it kept", `!document.querySelector(".waiting") && `+hip+`.getAttribute("value") === "12.5"`)
}

// sew ticks steps, some of them while the network is away and the page is
// loaded again, and finds all of them kept.
func (b *browser) sew(web *Server, docket string) {
	b.do("work", chromedp.Navigate(b.base+"/docket/"+docket+"/work"), chromedp.WaitVisible("#before"))
	b.fits("work-before")
	b.do("first step", press(".next"), chromedp.WaitVisible("#step-1"))
	b.fits("work")
	b.do("tick", press("#step-1 .tickit"), chromedp.WaitVisible("#step-2"))
	b.until("kept", `document.querySelector(".state").textContent === "all kept"`)
	b.until("the keeper", `navigator.serviceWorker.controller !== null && caches.match(location.pathname).then((r) => !!r)`)
	b.lock.Lock()
	b.away = true
	b.lock.Unlock()
	b.do("network away", b.offline(true), press("#step-2 .tickit"), chromedp.WaitVisible("#step-3"))
	b.until("kept here", `document.querySelector(".state").classList.contains("away")`)
	b.shot("work-away")
	b.do("loaded again", chromedp.Reload(), chromedp.WaitVisible("#step-3"))
	b.until("still ticked", `document.querySelector("#step-2").classList.contains("done")`)
	b.do("third", press("#step-3 .tickit"), chromedp.WaitVisible("#step-4"))
	b.do("network back", b.offline(false))
	b.until("caught up", `document.querySelector(".state").textContent === "all kept"`)
	ticks, err := web.store.Ticks(context.Background(), docket)
	if err != nil || len(ticks) != 3 {
		b.t.Errorf("%s: ticks %v, %v", b.name, ticks, err)
	}
}

func (b *browser) offline(away bool) chromedp.Action {
	return chromedp.ActionFunc(func(ctx context.Context) error {
		return network.EmulateNetworkConditions(away, 0, -1, -1).Do(ctx)
	})
}
