package exchange

import (
	"bytes"
	"image/png"
	"testing"
)

// The preview shows what has come in, large enough to be read and no larger than a
// screen: something is drawn at every corner of every piece.
func TestPreview(t *testing.T) {
	style, _ := OfPattern(quay(t), []string{"12", "14"})
	pieces, sizes, _ := Grade(style, nil, nil)
	data, err := Preview(pieces, sizes)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if b := img.Bounds(); max(b.Dx(), b.Dy()) != previewPixels {
		t.Errorf("the picture is %v", b)
	}
	at, w, h := shelved(pieces)
	k := previewPixels / max(w, h)
	for i, g := range pieces {
		for _, e := range g.In[len(g.In)/2].Edges {
			p := e.Curve.Start().Add(at[i])
			r, gr, b, _ := img.At(int(p.X*k), int((h-p.Y)*k)).RGBA()
			if r+gr+b > 2*0xffff {
				t.Errorf("%s: there is nothing at the corner where %s begins", g.Name, e.Name)
			}
		}
	}
	if _, err := Preview(nil, nil); err == nil {
		t.Error("nothing is drawn without a word")
	}
}
