package photo

import "encoding/binary"

// notes is what a camera wrote beside the picture (Exif 2.32, CIPA DC-008):
// which way up it was held, and its focal length as on 35 mm film.
type notes struct {
	orientation int
	focal       float64
}

// mirrored reports whether the picture is stored as a mirror shows it. Quarter
// turns do not matter: the cards say which way is up.
func (n notes) mirrored() bool {
	return n.orientation == 2 || n.orientation == 4 || n.orientation == 5 || n.orientation == 7
}

const (
	tagOrientation = 0x0112
	tagMore        = 0x8769 // where the Exif directory lies
	tagFocal35     = 0xA405
	mostTags       = 512
)

// readEXIF looks for the notes of a JPEG; a file without them, or with broken
// ones, has none.
func readEXIF(data []byte) notes {
	var n notes
	for at := 2; at+4 <= len(data) && data[at] == 0xFF; {
		marker, size := data[at+1], int(binary.BigEndian.Uint16(data[at+2:]))
		if marker == 0xDA || size < 2 || at+2+size > len(data) {
			break // the picture itself begins
		}
		body := data[at+4 : at+2+size]
		if marker == 0xE1 && len(body) > 14 && string(body[:6]) == "Exif\x00\x00" {
			n.directory(body[6:])
			break
		}
		at += 2 + size
	}
	return n
}

// directory reads the notes of a TIFF structure: its first directory, and the
// Exif directory that one names.
func (n *notes) directory(b []byte) {
	var order binary.ByteOrder = binary.LittleEndian
	switch string(b[:2]) {
	case "II":
	case "MM":
		order = binary.BigEndian
	default:
		return
	}
	more := n.tags(b, order, order.Uint32(b[4:]))
	n.tags(b, order, more)
}

// tags reads one directory and returns where the Exif directory lies.
func (n *notes) tags(b []byte, order binary.ByteOrder, at uint32) (more uint32) {
	if at < 8 || uint64(at)+2 > uint64(len(b)) {
		return 0
	}
	count := min(int(order.Uint16(b[at:])), mostTags)
	for i := range count {
		from := int(at) + 2 + 12*i
		if from+12 > len(b) {
			break
		}
		tag := b[from : from+12]
		value := order.Uint16(tag[8:])
		switch order.Uint16(tag) {
		case tagOrientation:
			n.orientation = int(value)
		case tagMore:
			more = order.Uint32(tag[8:])
		case tagFocal35:
			if value >= 8 && value <= 400 {
				n.focal = float64(value)
			}
		}
	}
	return more
}
