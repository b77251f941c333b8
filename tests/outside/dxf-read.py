"""Reads a DXF with ezdxf and prints, as JSON, what it found: audit, header, extents, entities."""
import json
import sys

import ezdxf
from ezdxf import bbox

document = ezdxf.readfile(sys.argv[1])
audit = document.audit()
model = document.modelspace()
lines = [entity for entity in model if entity.dxftype() != "TEXT"]
box = bbox.extents(lines, flatten=1e-4)
print(
    json.dumps(
        {
            "errors": [str(error.message) for error in audit.errors],
            "fixes": [str(fix.message) for fix in audit.fixes],
            "units": document.header["$INSUNITS"],
            "low": list(box.extmin)[:2],
            "high": list(box.extmax)[:2],
            "headerLow": list(document.header["$EXTMIN"])[:2],
            "headerHigh": list(document.header["$EXTMAX"])[:2],
            "layers": sorted({entity.dxf.layer for entity in model}),
            "linetypes": {layer.dxf.name: layer.dxf.linetype for layer in document.layers},
            "texts": [
                {
                    "text": text.dxf.text,
                    "at": list(text.get_pos()[1])[:2],
                    "align": text.get_pos()[0],
                    "height": text.dxf.height,
                    "rotation": text.dxf.rotation,
                    "font": document.styles.get(text.dxf.style).dxf.font,
                }
                for text in model.query("TEXT")
            ],
            "arcs": [
                {"from": list(arc.start_point)[:2], "to": list(arc.end_point)[:2]} for arc in model.query("ARC")
            ],
        }
    )
)
