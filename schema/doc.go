// Package schema describes the form of Gusset's YAML files as JSON Schemas
// (draft 2020-12, https://json-schema.org/draft/2020-12), so that an editor can
// complete keys and mark slips while a file is written:
//
//	# yaml-language-server: $schema=../schema/docket.schema.json
//
// A schema knows form only: keys, words, how a length is written. Whether a
// name leads somewhere, or a length is plausible, is for the loaders, which are
// always right where the two differ. The words come from the same tables that
// the loaders read, and a test holds the two to the same keys.
package schema
