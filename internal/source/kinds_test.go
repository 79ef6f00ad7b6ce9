package source

import (
	"go/ast"
	"go/parser"
	"go/token"
	"testing"

	"gusset/internal/finding"
)

// allKinds is every kind of the package, so that the wording of each is
// checked; TestAllKinds compares it with the table in kinds.go.
var allKinds = []finding.Kind{
	tooLarge, empty, binary, tooDeep, tooMany,
	yamlBroken, yamlLong, yamlAnchor, yamlTag, yamlDocuments, badKey, duplicateKey, commaInList,
	missingHeader, badHeader, otherKind, newer,
	missingKey, unknownKey, wrongType, unknownWord, badNumber, badLength, badPercent, outOfRange, unquotedLabel,
	svgBroken, svgDoctype, svgRoot, svgViewBox, svgScale, svgElement, svgTransform, svgNumber, svgPath,
	svgArc, svgHuge, svgLong, svgDuplicateID,
}

func TestAllKinds(t *testing.T) {
	codes := map[string]bool{}
	for _, k := range allKinds {
		if err := k.Validate(); err != nil {
			t.Error(err)
		}
		if codes[k.Code] {
			t.Errorf("code %s is used twice", k.Code)
		}
		codes[k.Code] = true
	}
	file, err := parser.ParseFile(token.NewFileSet(), "kinds.go", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	declared := 0
	ast.Inspect(file, func(n ast.Node) bool {
		if spec, ok := n.(*ast.ValueSpec); ok {
			declared += len(spec.Names)
		}
		return true
	})
	if declared != len(allKinds) {
		t.Errorf("kinds.go declares %d kinds, the test knows %d", declared, len(allKinds))
	}
}
