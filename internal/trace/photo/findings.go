package photo

import "gusset/internal/finding"

func stop(code, text, mend string) finding.Kind {
	return finding.Kind{Code: "trace." + code, Severity: finding.Stop, Text: text, Mend: mend}
}

// What may be wrong with a file.
var (
	tooLarge   = stop("photo-large", "the file has %.0[1]f MB, at most %[2]d are read", "save the photo as a JPEG of ordinary quality")
	manyPixels = stop("photo-large", "the photo has %[1]d × %[2]d pixels, at most %.0[3]f million are read", "set the camera to 12 or 24 megapixels")
	fewPixels  = stop("photo-small", "the photo has only %[1]d × %[2]d pixels", "use the photo as the camera took it, not one that was sent in a message")
	heif       = stop("photo-heif", "this is a HEIC or AVIF picture, which is not read", "set the camera to JPEG (\"most compatible\"), or convert the file: heif-convert -q 95 photo.heic photo.jpg")
	notPhoto   = stop("not-photo", "this is neither a JPEG nor a PNG picture", "give the photo as the camera saved it")
	broken     = stop("photo-broken", "the %[1]s picture is broken off or damaged", "copy the file from the phone again")
)

// Kinds lists every finding of this package.
var Kinds = []finding.Kind{tooLarge, manyPixels, fewPixels, heif, notPhoto, broken}
