package lay

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"

	"gusset/internal/cloth"
	"gusset/internal/finish"
)

// Digest names what a lay depends on besides how long it was searched: the
// shapes of the cuts for one role and what is matched on them, the cloth, and
// how it is asked to be laid. Names and places in files are not part of it.
func Digest(c cloth.Cloth, role cloth.Role, cuts []finish.Cut, o Options) string {
	h := sha256.New()
	fmt.Fprintln(h, "lay", Version, role, o.Fold, o.Table, o.OffGrain)
	fmt.Fprintln(h, c.UsableWidth(), c.UsableLength(), c.Selvedge.MM(), c.Direction, c.ShrinkWarp, c.ShrinkWeft, c.Bar())
	along, across := c.Periods()
	fmt.Fprintln(h, along, across, c.Repeat.Even, c.Repeat.Known)
	for _, ring := range hazards(c) {
		fmt.Fprintln(h, ring)
	}
	for _, k := range cuts {
		if k.Cloth == role {
			digestCut(h, k)
		}
	}
	return hex.EncodeToString(h.Sum(nil))[:16]
}

func digestCut(h io.Writer, k finish.Cut) {
	fmt.Fprintln(h, k.ID, k.Pair, k.OnFold, k.Fold, k.Hidden, heldAt(k), k.Outline)
	if k.OnFold {
		if whole, ok := opened(k); ok {
			fmt.Fprintln(h, heldAt(whole))
		}
	}
	for _, m := range k.Matched {
		fmt.Fprintln(h, m.Match, m.At, m.Along, m.Across)
	}
}
