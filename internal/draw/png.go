package draw

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image/png"
	"io"
	"math"
)

// PNG writes the page as a picture at dpi pixels per inch. The picture states
// its own scale, so that programs that honour it print it at true size.
func PNG(w io.Writer, p Page, dpi float64) error {
	img, err := Raster(p, dpi)
	if err != nil {
		return fmt.Errorf("png: %w", err)
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		return fmt.Errorf("png: %w", err)
	}
	data := b.Bytes()
	// The signature (8 bytes) and the header chunk (25) come first.
	const head = 8 + 25
	if _, err := w.Write(data[:head]); err != nil {
		return err
	}
	if _, err := w.Write(scaleChunk(dpi)); err != nil {
		return err
	}
	_, err = w.Write(data[head:])
	return err
}

// scaleChunk returns the chunk that states pixels per metre (PNG, ISO/IEC
// 15948, 11.3.5.3 pHYs).
func scaleChunk(dpi float64) []byte {
	perMetre := uint32(math.Round(dpi / 0.0254))
	c := binary.BigEndian.AppendUint32(nil, 9)
	c = append(c, "pHYs"...)
	c = binary.BigEndian.AppendUint32(c, perMetre)
	c = binary.BigEndian.AppendUint32(c, perMetre)
	c = append(c, 1) // the unit is the metre
	return binary.BigEndian.AppendUint32(c, crc32.ChecksumIEEE(c[4:]))
}
