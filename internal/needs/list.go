package needs

// List is what the make needs. Only Count makes one.
type List struct {
	threads []Thread
	spools  []Spool
	items   []Item
}

// Threads returns thread by kind.
func (l List) Threads() []Thread { return l.threads }

// Spools returns the threads to buy, needle and bobbin of one thread together.
func (l List) Spools() []Spool { return l.spools }

// Items returns cloth, zips, buttons, interfacing and the rest.
func (l List) Items() []Item { return l.items }

// Thread is one kind of thread with its length in mm, wastage and tails
// included.
type Thread struct {
	Name   string  // "main needle", "overlock loopers", "topstitch needle"
	Length float64 // Sewn with its wastage, and Tails
	Sewn   float64 // mm in the stitches
	Tails  float64 // mm hanging at the ends of rows
	Uses   []Use
}

// Use is one stitch's share, with the formula's source.
type Use struct {
	Stitch string
	Seam   float64 // mm of stitching
	Ratio  float64 // thread per seam length, over all its seams
	Source string
}

// Item is something counted or measured.
type Item struct {
	Kind   string
	Title  string
	Count  int
	Length float64 // mm, 0 when counted
	Note   string
}
