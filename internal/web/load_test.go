package web

import (
	"io"
	"math/rand/v2"
	"net/http"
	"net/url"
	"slices"
	"sync"
	"testing"
	"time"

	"gusset/internal/making"
)

// readPages are the pages that people at work look at, the docket's sheet most.
var readPages = []string{"/docket/quay-cropped", "/docket/quay-cropped", "/docket/quay-cropped/work", "/", "/file/cloths/slate-serge.yaml", "/changes", "/docket/quay-cropped/cloth/main"}

func fetch(b testing.TB, client *http.Client, url string) time.Duration {
	begun := time.Now()
	resp, err := client.Get(url)
	if err != nil {
		b.Error(err)
		return 0
	}
	_, err = io.Copy(io.Discard, resp.Body)
	resp.Body.Close()
	if err != nil || resp.StatusCode != 200 {
		b.Errorf("%s: %d, %v", url, resp.StatusCode, err)
	}
	return time.Since(begun)
}

// BenchmarkPages times each page by itself.
func BenchmarkPages(b *testing.B) {
	web, srv := room(b, laidOut(b, "quay-cropped"))
	wholly(b, web, "quay-cropped")
	for _, p := range slices.Compact(slices.Clone(readPages)) {
		b.Run(p[1:], func(b *testing.B) {
			for b.Loop() {
				fetch(b, http.DefaultClient, srv.URL+p)
			}
		})
	}
}

// Of the load, for BenchmarkUsers.
const (
	users   = 50
	thought = 4 * time.Second // that a page is looked at, on average
)

// BenchmarkUsers is 50 people in one workroom, each looking at page after page,
// some seconds at each, with no search running and with one: it tells how long
// the slowest of a hundred pages takes. Its operations are pages.
func BenchmarkUsers(b *testing.B) {
	for _, search := range []bool{false, true} {
		name := map[bool]string{false: "no-search", true: "search"}[search]
		b.Run(name, func(b *testing.B) {
			MakeRoom()
			web, srv := room(b, laidOut(b, "quay-cropped"))
			wholly(b, web, "quay-cropped")
			if search {
				post(b, srv, "/docket/quay-cropped/look", url.Values{"do": {"look"}})
			}
			client := &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: users}}
			took := make([][]time.Duration, users)
			b.ResetTimer()
			var all sync.WaitGroup
			for u := range users {
				all.Go(func() {
					random := rand.New(rand.NewPCG(uint64(u), 7))
					for n := u; n < b.N; n += users {
						time.Sleep(time.Duration(random.ExpFloat64() * float64(thought)))
						took[u] = append(took[u], fetch(b, client, srv.URL+readPages[random.IntN(len(readPages))]))
					}
				})
			}
			all.Wait()
			b.StopTimer()
			sorted := slices.Sorted(slices.Values(slices.Concat(took...)))
			at := func(share float64) float64 {
				return sorted[min(int(share*float64(len(sorted))), len(sorted)-1)].Seconds() * 1000
			}
			b.ReportMetric(at(0.5), "p50-ms")
			b.ReportMetric(at(0.99), "p99-ms")
		})
	}
}

// BenchmarkChange times a number changed on a docket's sheet: from sending the
// form until the page with pieces, seams and ease has come back.
func BenchmarkChange(b *testing.B) {
	web, srv := room(b, laidOut(b, "quay-cropped"))
	wholly(b, web, "quay-cropped")
	const at = "/docket/quay-cropped"
	post(b, srv, at+"/edit/add", url.Values{"base": {baseOf(b, srv, at)}, "kind": {"lengthen"}, "at": {"leg"}, "by": {"1 cm"}, "id": {"long"}})
	base := baseOf(b, srv, at)
	for n := 0; b.Loop(); n++ {
		by := []string{"2 cm", "3 cm"}[n%2]
		status, body := post(b, srv, at+"/edit/change", url.Values{"base": {base}, "step": {"long"}, "by": {by}})
		if status != 200 {
			b.Fatalf("%d", status)
		}
		base = baseIn(b, body)
	}
	// What was timed is a change that can be made, with all its pieces.
	if m, err := web.desk.table("quay-cropped").at(); err != nil || m.drawn.Reached != making.Finish || m.drawn.Findings.Stops() > 0 {
		b.Errorf("the change stops: %v, %v", m.drawn.Findings.Codes(), err)
	}
}
