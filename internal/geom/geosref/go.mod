module gusset/internal/geom/geosref

go 1.26.8

require (
	github.com/twpayne/go-geos v0.20.2
	gusset v0.0.0
)

require (
	github.com/goccy/go-yaml v1.19.2 // indirect
	github.com/peterstace/simplefeatures v0.50.0 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
)

replace gusset => ../../..
