//! A picture as an object of a PDF.

use std::collections::BTreeMap;

use printpdf::{DictItem, ExternalStream, ExternalXObject, XObject};

use super::Image;
use crate::day::picture::Packing;

/// The picture as it is packed: a PDF knows both ways (ISO 32000-1, 7.4.4 and 7.4.8).
pub(in crate::papers) fn object(image: &Image) -> XObject {
    let picture = image.picture();
    let name = |name: &str| DictItem::Name(name.as_bytes().to_vec());
    let (colours, grey) = (i64::from(picture.colours), picture.colours == 1);
    let mut dict = BTreeMap::from([
        ("Type".to_owned(), name("XObject")),
        ("Subtype".to_owned(), name("Image")),
        ("Width".to_owned(), DictItem::Int(picture.width.into())),
        ("Height".to_owned(), DictItem::Int(picture.height.into())),
        ("BitsPerComponent".to_owned(), DictItem::Int(8)),
        (
            "ColorSpace".to_owned(),
            name(if grey { "DeviceGray" } else { "DeviceRGB" }),
        ),
    ]);
    let filter = match picture.packing {
        Packing::Jpeg => "DCTDecode",
        Packing::Png => {
            let rows = [
                ("Predictor", 15),
                ("Colors", colours),
                ("BitsPerComponent", 8),
                ("Columns", picture.width.into()),
            ];
            let rows = rows.map(|(key, value)| (key.to_owned(), DictItem::Int(value)));
            let map = BTreeMap::from(rows);
            let _ = dict.insert("DecodeParms".to_owned(), DictItem::Dict { map });
            "FlateDecode"
        }
    };
    let _ = dict.insert("Filter".to_owned(), name(filter));
    XObject::External(ExternalXObject {
        stream: ExternalStream {
            dict,
            content: image.data(),
            compress: false,
        },
        width: None,
        height: None,
        dpi: None,
    })
}
