// Generated from proto/ by tests/contract_fresh.rs (UPDATE=1 cargo test); never edited by hand.
impl serde::Serialize for Allowance {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Allowance", len)?;
        if true {
            let v = AllowanceBasis::try_from(self.basis)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.basis),
                ))?;
            struct_ser.serialize_field("basis", &v)?;
        }
        if true {
            struct_ser.serialize_field("percent", &self.percent)?;
        }
        if true {
            struct_ser.serialize_field("minutes", &self.minutes)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Allowance {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["basis", "percent", "minutes"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Basis,
            Percent,
            Minutes,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "basis" => Ok(GeneratedField::Basis),
                            "percent" => Ok(GeneratedField::Percent),
                            "minutes" => Ok(GeneratedField::Minutes),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Allowance;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Allowance")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<Allowance, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut basis__ = None;
                let mut percent__ = None;
                let mut minutes__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Basis => {
                            if basis__.is_some() {
                                return Err(serde::de::Error::duplicate_field("basis"));
                            }
                            basis__ = Some(map_.next_value::<AllowanceBasis>()? as i32);
                        }
                        GeneratedField::Percent => {
                            if percent__.is_some() {
                                return Err(serde::de::Error::duplicate_field("percent"));
                            }
                            percent__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Minutes => {
                            if minutes__.is_some() {
                                return Err(serde::de::Error::duplicate_field("minutes"));
                            }
                            minutes__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                    }
                }
                Ok(Allowance {
                    basis: basis__.unwrap_or_default(),
                    percent: percent__.unwrap_or_default(),
                    minutes: minutes__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.Allowance", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for AllowanceBasis {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "ALLOWANCE_BASIS_UNSPECIFIED",
            Self::Work => "ALLOWANCE_BASIS_WORK",
            Self::Shift => "ALLOWANCE_BASIS_SHIFT",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for AllowanceBasis {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "ALLOWANCE_BASIS_UNSPECIFIED",
            "ALLOWANCE_BASIS_WORK",
            "ALLOWANCE_BASIS_SHIFT",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = AllowanceBasis;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "ALLOWANCE_BASIS_UNSPECIFIED" => Ok(AllowanceBasis::Unspecified),
                    "ALLOWANCE_BASIS_WORK" => Ok(AllowanceBasis::Work),
                    "ALLOWANCE_BASIS_SHIFT" => Ok(AllowanceBasis::Shift),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for Alternative {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.Alternative", len)?;
        if true {
            struct_ser.serialize_field("pennantCount", &self.pennant_count)?;
        }
        if true {
            struct_ser.serialize_field("gapMm", &self.gap_mm)?;
        }
        if true {
            struct_ser.serialize_field("flaggedMm", &self.flagged_mm)?;
        }
        if true {
            struct_ser.serialize_field("tailMm", &self.tail_mm)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Alternative {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "pennant_count",
            "pennantCount",
            "gap_mm",
            "gapMm",
            "flagged_mm",
            "flaggedMm",
            "tail_mm",
            "tailMm",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            PennantCount,
            GapMm,
            FlaggedMm,
            TailMm,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "pennantCount" | "pennant_count" => {
                                Ok(GeneratedField::PennantCount)
                            }
                            "gapMm" | "gap_mm" => Ok(GeneratedField::GapMm),
                            "flaggedMm" | "flagged_mm" => Ok(GeneratedField::FlaggedMm),
                            "tailMm" | "tail_mm" => Ok(GeneratedField::TailMm),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Alternative;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Alternative")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<Alternative, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut pennant_count__ = None;
                let mut gap_mm__ = None;
                let mut flagged_mm__ = None;
                let mut tail_mm__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::PennantCount => {
                            if pennant_count__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("pennantCount"),
                                );
                            }
                            pennant_count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::GapMm => {
                            if gap_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("gapMm"));
                            }
                            gap_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::FlaggedMm => {
                            if flagged_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("flaggedMm"));
                            }
                            flagged_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::TailMm => {
                            if tail_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("tailMm"));
                            }
                            tail_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                    }
                }
                Ok(Alternative {
                    pennant_count: pennant_count__.unwrap_or_default(),
                    gap_mm: gap_mm__.unwrap_or_default(),
                    flagged_mm: flagged_mm__.unwrap_or_default(),
                    tail_mm: tail_mm__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.Alternative", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for BiasBinding {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.BiasBinding", len)?;
        if true {
            struct_ser.serialize_field("fabricCode", &self.fabric_code)?;
        }
        if true {
            struct_ser.serialize_field("squareCount", &self.square_count)?;
        }
        if true {
            struct_ser.serialize_field("sideMm", &self.side_mm)?;
        }
        if true {
            struct_ser.serialize_field("turnCount", &self.turn_count)?;
        }
        if true {
            struct_ser.serialize_field("rawMm", &self.raw_mm)?;
        }
        if true {
            struct_ser.serialize_field("yieldMm", &self.yield_mm)?;
        }
        if true {
            struct_ser.serialize_field("boundMm", &self.bound_mm)?;
        }
        if true {
            struct_ser.serialize_field("chargedMm", &self.charged_mm)?;
        }
        if let Some(v) = self.last_side_mm.as_ref() {
            struct_ser.serialize_field("lastSideMm", v)?;
        }
        if let Some(v) = self.last_turn_count.as_ref() {
            struct_ser.serialize_field("lastTurnCount", v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for BiasBinding {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "fabric_code",
            "fabricCode",
            "square_count",
            "squareCount",
            "side_mm",
            "sideMm",
            "turn_count",
            "turnCount",
            "raw_mm",
            "rawMm",
            "yield_mm",
            "yieldMm",
            "bound_mm",
            "boundMm",
            "charged_mm",
            "chargedMm",
            "last_side_mm",
            "lastSideMm",
            "last_turn_count",
            "lastTurnCount",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            FabricCode,
            SquareCount,
            SideMm,
            TurnCount,
            RawMm,
            YieldMm,
            BoundMm,
            ChargedMm,
            LastSideMm,
            LastTurnCount,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "fabricCode" | "fabric_code" => {
                                Ok(GeneratedField::FabricCode)
                            }
                            "squareCount" | "square_count" => {
                                Ok(GeneratedField::SquareCount)
                            }
                            "sideMm" | "side_mm" => Ok(GeneratedField::SideMm),
                            "turnCount" | "turn_count" => Ok(GeneratedField::TurnCount),
                            "rawMm" | "raw_mm" => Ok(GeneratedField::RawMm),
                            "yieldMm" | "yield_mm" => Ok(GeneratedField::YieldMm),
                            "boundMm" | "bound_mm" => Ok(GeneratedField::BoundMm),
                            "chargedMm" | "charged_mm" => Ok(GeneratedField::ChargedMm),
                            "lastSideMm" | "last_side_mm" => {
                                Ok(GeneratedField::LastSideMm)
                            }
                            "lastTurnCount" | "last_turn_count" => {
                                Ok(GeneratedField::LastTurnCount)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = BiasBinding;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.BiasBinding")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<BiasBinding, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut fabric_code__ = None;
                let mut square_count__ = None;
                let mut side_mm__ = None;
                let mut turn_count__ = None;
                let mut raw_mm__ = None;
                let mut yield_mm__ = None;
                let mut bound_mm__ = None;
                let mut charged_mm__ = None;
                let mut last_side_mm__ = None;
                let mut last_turn_count__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::FabricCode => {
                            if fabric_code__.is_some() {
                                return Err(serde::de::Error::duplicate_field("fabricCode"));
                            }
                            fabric_code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::SquareCount => {
                            if square_count__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("squareCount"),
                                );
                            }
                            square_count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::SideMm => {
                            if side_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("sideMm"));
                            }
                            side_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::TurnCount => {
                            if turn_count__.is_some() {
                                return Err(serde::de::Error::duplicate_field("turnCount"));
                            }
                            turn_count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::RawMm => {
                            if raw_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("rawMm"));
                            }
                            raw_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::YieldMm => {
                            if yield_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("yieldMm"));
                            }
                            yield_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::BoundMm => {
                            if bound_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("boundMm"));
                            }
                            bound_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::ChargedMm => {
                            if charged_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("chargedMm"));
                            }
                            charged_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::LastSideMm => {
                            if last_side_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("lastSideMm"));
                            }
                            last_side_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::LastTurnCount => {
                            if last_turn_count__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("lastTurnCount"),
                                );
                            }
                            last_turn_count__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                    }
                }
                Ok(BiasBinding {
                    fabric_code: fabric_code__.unwrap_or_default(),
                    square_count: square_count__.unwrap_or_default(),
                    side_mm: side_mm__.unwrap_or_default(),
                    turn_count: turn_count__.unwrap_or_default(),
                    raw_mm: raw_mm__.unwrap_or_default(),
                    yield_mm: yield_mm__.unwrap_or_default(),
                    bound_mm: bound_mm__.unwrap_or_default(),
                    charged_mm: charged_mm__.unwrap_or_default(),
                    last_side_mm: last_side_mm__,
                    last_turn_count: last_turn_count__,
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.BiasBinding", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Binding {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Binding", len)?;
        if true {
            struct_ser.serialize_field("code", &self.code)?;
        }
        if true {
            struct_ser.serialize_field("name", &self.name)?;
        }
        if true {
            struct_ser.serialize_field("widthMm", &self.width_mm)?;
        }
        if true {
            struct_ser.serialize_field("swatch", &self.swatch)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Binding {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["code", "name", "width_mm", "widthMm", "swatch"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Code,
            Name,
            WidthMm,
            Swatch,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "code" => Ok(GeneratedField::Code),
                            "name" => Ok(GeneratedField::Name),
                            "widthMm" | "width_mm" => Ok(GeneratedField::WidthMm),
                            "swatch" => Ok(GeneratedField::Swatch),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Binding;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Binding")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Binding, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut code__ = None;
                let mut name__ = None;
                let mut width_mm__ = None;
                let mut swatch__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Code => {
                            if code__.is_some() {
                                return Err(serde::de::Error::duplicate_field("code"));
                            }
                            code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Name => {
                            if name__.is_some() {
                                return Err(serde::de::Error::duplicate_field("name"));
                            }
                            name__ = Some(map_.next_value()?);
                        }
                        GeneratedField::WidthMm => {
                            if width_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("widthMm"));
                            }
                            width_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Swatch => {
                            if swatch__.is_some() {
                                return Err(serde::de::Error::duplicate_field("swatch"));
                            }
                            swatch__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Binding {
                    code: code__.unwrap_or_default(),
                    name: name__.unwrap_or_default(),
                    width_mm: width_mm__.unwrap_or_default(),
                    swatch: swatch__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Binding", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for BindingJoin {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.BindingJoin", len)?;
        if true {
            struct_ser.serialize_field("stringNumber", &self.string_number)?;
        }
        if true {
            struct_ser.serialize_field("atMm", &self.at_mm)?;
        }
        if let Some(v) = self.behind_pennant.as_ref() {
            struct_ser.serialize_field("behindPennant", v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for BindingJoin {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "string_number",
            "stringNumber",
            "at_mm",
            "atMm",
            "behind_pennant",
            "behindPennant",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            StringNumber,
            AtMm,
            BehindPennant,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "stringNumber" | "string_number" => {
                                Ok(GeneratedField::StringNumber)
                            }
                            "atMm" | "at_mm" => Ok(GeneratedField::AtMm),
                            "behindPennant" | "behind_pennant" => {
                                Ok(GeneratedField::BehindPennant)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = BindingJoin;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.BindingJoin")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<BindingJoin, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut string_number__ = None;
                let mut at_mm__ = None;
                let mut behind_pennant__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::StringNumber => {
                            if string_number__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("stringNumber"),
                                );
                            }
                            string_number__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::AtMm => {
                            if at_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("atMm"));
                            }
                            at_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::BehindPennant => {
                            if behind_pennant__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("behindPennant"),
                                );
                            }
                            behind_pennant__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                    }
                }
                Ok(BindingJoin {
                    string_number: string_number__.unwrap_or_default(),
                    at_mm: at_mm__.unwrap_or_default(),
                    behind_pennant: behind_pennant__,
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.BindingJoin", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for BindingUse {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if self.supply.is_some() {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.BindingUse", len)?;
        if true {
            struct_ser.serialize_field("bindingCode", &self.binding_code)?;
        }
        if true {
            struct_ser.serialize_field("widthMm", &self.width_mm)?;
        }
        if true {
            struct_ser.serialize_field("insertionMm", &self.insertion_mm)?;
        }
        if true {
            struct_ser.serialize_field("cutMm", &self.cut_mm)?;
        }
        if true {
            struct_ser.serialize_field("takenMm", &self.taken_mm)?;
        }
        if true {
            struct_ser.serialize_field("joinCount", &self.join_count)?;
        }
        if true {
            struct_ser.serialize_field("joinLossMm", &self.join_loss_mm)?;
        }
        if true {
            struct_ser.serialize_field("joins", &self.joins)?;
        }
        if let Some(v) = self.supply.as_ref() {
            match v {
                binding_use::Supply::Bought(v) => {
                    struct_ser.serialize_field("bought", v)?;
                }
                binding_use::Supply::Straight(v) => {
                    struct_ser.serialize_field("straight", v)?;
                }
                binding_use::Supply::Bias(v) => {
                    struct_ser.serialize_field("bias", v)?;
                }
            }
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for BindingUse {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "binding_code",
            "bindingCode",
            "width_mm",
            "widthMm",
            "insertion_mm",
            "insertionMm",
            "cut_mm",
            "cutMm",
            "taken_mm",
            "takenMm",
            "join_count",
            "joinCount",
            "join_loss_mm",
            "joinLossMm",
            "joins",
            "bought",
            "straight",
            "bias",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            BindingCode,
            WidthMm,
            InsertionMm,
            CutMm,
            TakenMm,
            JoinCount,
            JoinLossMm,
            Joins,
            Bought,
            Straight,
            Bias,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "bindingCode" | "binding_code" => {
                                Ok(GeneratedField::BindingCode)
                            }
                            "widthMm" | "width_mm" => Ok(GeneratedField::WidthMm),
                            "insertionMm" | "insertion_mm" => {
                                Ok(GeneratedField::InsertionMm)
                            }
                            "cutMm" | "cut_mm" => Ok(GeneratedField::CutMm),
                            "takenMm" | "taken_mm" => Ok(GeneratedField::TakenMm),
                            "joinCount" | "join_count" => Ok(GeneratedField::JoinCount),
                            "joinLossMm" | "join_loss_mm" => {
                                Ok(GeneratedField::JoinLossMm)
                            }
                            "joins" => Ok(GeneratedField::Joins),
                            "bought" => Ok(GeneratedField::Bought),
                            "straight" => Ok(GeneratedField::Straight),
                            "bias" => Ok(GeneratedField::Bias),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = BindingUse;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.BindingUse")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<BindingUse, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut binding_code__ = None;
                let mut width_mm__ = None;
                let mut insertion_mm__ = None;
                let mut cut_mm__ = None;
                let mut taken_mm__ = None;
                let mut join_count__ = None;
                let mut join_loss_mm__ = None;
                let mut joins__ = None;
                let mut supply__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::BindingCode => {
                            if binding_code__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("bindingCode"),
                                );
                            }
                            binding_code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::WidthMm => {
                            if width_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("widthMm"));
                            }
                            width_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::InsertionMm => {
                            if insertion_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("insertionMm"),
                                );
                            }
                            insertion_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::CutMm => {
                            if cut_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("cutMm"));
                            }
                            cut_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::TakenMm => {
                            if taken_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("takenMm"));
                            }
                            taken_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::JoinCount => {
                            if join_count__.is_some() {
                                return Err(serde::de::Error::duplicate_field("joinCount"));
                            }
                            join_count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::JoinLossMm => {
                            if join_loss_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("joinLossMm"));
                            }
                            join_loss_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Joins => {
                            if joins__.is_some() {
                                return Err(serde::de::Error::duplicate_field("joins"));
                            }
                            joins__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Bought => {
                            if supply__.is_some() {
                                return Err(serde::de::Error::duplicate_field("bought"));
                            }
                            supply__ = map_
                                .next_value::<::std::option::Option<_>>()?
                                .map(binding_use::Supply::Bought);
                        }
                        GeneratedField::Straight => {
                            if supply__.is_some() {
                                return Err(serde::de::Error::duplicate_field("straight"));
                            }
                            supply__ = map_
                                .next_value::<::std::option::Option<_>>()?
                                .map(binding_use::Supply::Straight);
                        }
                        GeneratedField::Bias => {
                            if supply__.is_some() {
                                return Err(serde::de::Error::duplicate_field("bias"));
                            }
                            supply__ = map_
                                .next_value::<::std::option::Option<_>>()?
                                .map(binding_use::Supply::Bias);
                        }
                    }
                }
                Ok(BindingUse {
                    binding_code: binding_code__.unwrap_or_default(),
                    width_mm: width_mm__.unwrap_or_default(),
                    insertion_mm: insertion_mm__.unwrap_or_default(),
                    cut_mm: cut_mm__.unwrap_or_default(),
                    taken_mm: taken_mm__.unwrap_or_default(),
                    join_count: join_count__.unwrap_or_default(),
                    join_loss_mm: join_loss_mm__.unwrap_or_default(),
                    joins: joins__.unwrap_or_default(),
                    supply: supply__,
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.BindingUse", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for BoughtBinding {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.BoughtBinding", len)?;
        if true {
            struct_ser.serialize_field("offcutMm", &self.offcut_mm)?;
        }
        if true {
            struct_ser.serialize_field("rollCount", &self.roll_count)?;
        }
        if true {
            struct_ser.serialize_field("wholeRolls", &self.whole_rolls)?;
        }
        if true {
            struct_ser.serialize_field("paidMm", &self.paid_mm)?;
        }
        if let Some(v) = self.break_even_mm.as_ref() {
            struct_ser.serialize_field("breakEvenMm", v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for BoughtBinding {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "offcut_mm",
            "offcutMm",
            "roll_count",
            "rollCount",
            "whole_rolls",
            "wholeRolls",
            "paid_mm",
            "paidMm",
            "break_even_mm",
            "breakEvenMm",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            OffcutMm,
            RollCount,
            WholeRolls,
            PaidMm,
            BreakEvenMm,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "offcutMm" | "offcut_mm" => Ok(GeneratedField::OffcutMm),
                            "rollCount" | "roll_count" => Ok(GeneratedField::RollCount),
                            "wholeRolls" | "whole_rolls" => {
                                Ok(GeneratedField::WholeRolls)
                            }
                            "paidMm" | "paid_mm" => Ok(GeneratedField::PaidMm),
                            "breakEvenMm" | "break_even_mm" => {
                                Ok(GeneratedField::BreakEvenMm)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = BoughtBinding;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.BoughtBinding")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<BoughtBinding, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut offcut_mm__ = None;
                let mut roll_count__ = None;
                let mut whole_rolls__ = None;
                let mut paid_mm__ = None;
                let mut break_even_mm__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::OffcutMm => {
                            if offcut_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("offcutMm"));
                            }
                            offcut_mm__ = Some(
                                map_
                                    .next_value::<
                                        Vec<::pbjson::private::NumberDeserialize<_>>,
                                    >()?
                                    .into_iter()
                                    .map(|x| x.0)
                                    .collect(),
                            );
                        }
                        GeneratedField::RollCount => {
                            if roll_count__.is_some() {
                                return Err(serde::de::Error::duplicate_field("rollCount"));
                            }
                            roll_count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::WholeRolls => {
                            if whole_rolls__.is_some() {
                                return Err(serde::de::Error::duplicate_field("wholeRolls"));
                            }
                            whole_rolls__ = Some(map_.next_value()?);
                        }
                        GeneratedField::PaidMm => {
                            if paid_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("paidMm"));
                            }
                            paid_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::BreakEvenMm => {
                            if break_even_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("breakEvenMm"),
                                );
                            }
                            break_even_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                    }
                }
                Ok(BoughtBinding {
                    offcut_mm: offcut_mm__.unwrap_or_default(),
                    roll_count: roll_count__.unwrap_or_default(),
                    whole_rolls: whole_rolls__.unwrap_or_default(),
                    paid_mm: paid_mm__.unwrap_or_default(),
                    break_even_mm: break_even_mm__,
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.BoughtBinding", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for CalculateQuoteRequest {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.CalculateQuoteRequest", len)?;
        if let Some(v) = self.enquiry.as_ref() {
            struct_ser.serialize_field("enquiry", v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for CalculateQuoteRequest {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["enquiry"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Enquiry,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "enquiry" => Ok(GeneratedField::Enquiry),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = CalculateQuoteRequest;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.CalculateQuoteRequest")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<CalculateQuoteRequest, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut enquiry__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Enquiry => {
                            if enquiry__.is_some() {
                                return Err(serde::de::Error::duplicate_field("enquiry"));
                            }
                            enquiry__ = map_.next_value()?;
                        }
                    }
                }
                Ok(CalculateQuoteRequest {
                    enquiry: enquiry__,
                })
            }
        }
        deserializer
            .deserialize_struct(
                "pennantry.v1.CalculateQuoteRequest",
                FIELDS,
                GeneratedVisitor,
            )
    }
}
impl serde::Serialize for CalculateQuoteResponse {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.CalculateQuoteResponse", len)?;
        if let Some(v) = self.quote.as_ref() {
            struct_ser.serialize_field("quote", v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for CalculateQuoteResponse {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["quote"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Quote,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "quote" => Ok(GeneratedField::Quote),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = CalculateQuoteResponse;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.CalculateQuoteResponse")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<CalculateQuoteResponse, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut quote__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Quote => {
                            if quote__.is_some() {
                                return Err(serde::de::Error::duplicate_field("quote"));
                            }
                            quote__ = map_.next_value()?;
                        }
                    }
                }
                Ok(CalculateQuoteResponse {
                    quote: quote__,
                })
            }
        }
        deserializer
            .deserialize_struct(
                "pennantry.v1.CalculateQuoteResponse",
                FIELDS,
                GeneratedVisitor,
            )
    }
}
impl serde::Serialize for CalculateQuotesRequest {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.CalculateQuotesRequest", len)?;
        if true {
            struct_ser.serialize_field("enquiries", &self.enquiries)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for CalculateQuotesRequest {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["enquiries"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Enquiries,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "enquiries" => Ok(GeneratedField::Enquiries),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = CalculateQuotesRequest;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.CalculateQuotesRequest")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<CalculateQuotesRequest, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut enquiries__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Enquiries => {
                            if enquiries__.is_some() {
                                return Err(serde::de::Error::duplicate_field("enquiries"));
                            }
                            enquiries__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(CalculateQuotesRequest {
                    enquiries: enquiries__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct(
                "pennantry.v1.CalculateQuotesRequest",
                FIELDS,
                GeneratedVisitor,
            )
    }
}
impl serde::Serialize for CalculateQuotesResponse {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.CalculateQuotesResponse", len)?;
        if true {
            struct_ser.serialize_field("outcomes", &self.outcomes)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for CalculateQuotesResponse {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["outcomes"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Outcomes,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "outcomes" => Ok(GeneratedField::Outcomes),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = CalculateQuotesResponse;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.CalculateQuotesResponse")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<CalculateQuotesResponse, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut outcomes__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Outcomes => {
                            if outcomes__.is_some() {
                                return Err(serde::de::Error::duplicate_field("outcomes"));
                            }
                            outcomes__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(CalculateQuotesResponse {
                    outcomes: outcomes__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct(
                "pennantry.v1.CalculateQuotesResponse",
                FIELDS,
                GeneratedVisitor,
            )
    }
}
impl serde::Serialize for Catalogue {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Catalogue", len)?;
        if true {
            struct_ser.serialize_field("revision", &self.revision)?;
        }
        if true {
            struct_ser.serialize_field("currencyCode", &self.currency_code)?;
        }
        if true {
            struct_ser.serialize_field("minorDigits", &self.minor_digits)?;
        }
        if true {
            struct_ser.serialize_field("designs", &self.designs)?;
        }
        if true {
            struct_ser.serialize_field("fabrics", &self.fabrics)?;
        }
        if true {
            struct_ser.serialize_field("bindings", &self.bindings)?;
        }
        if true {
            struct_ser.serialize_field("trimmings", &self.trimmings)?;
        }
        if true {
            struct_ser.serialize_field("shopName", &self.shop_name)?;
        }
        if true {
            struct_ser.serialize_field("leastMm", &self.least_mm)?;
        }
        if true {
            struct_ser.serialize_field("mostMm", &self.most_mm)?;
        }
        if true {
            struct_ser.serialize_field("services", &self.services)?;
        }
        if true {
            struct_ser.serialize_field("lettersOffered", &self.letters_offered)?;
        }
        if let Some(v) = self.maker.as_ref() {
            struct_ser.serialize_field("maker", v)?;
        }
        if true {
            struct_ser.serialize_field("rushOffered", &self.rush_offered)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Catalogue {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "revision",
            "currency_code",
            "currencyCode",
            "minor_digits",
            "minorDigits",
            "designs",
            "fabrics",
            "bindings",
            "trimmings",
            "shop_name",
            "shopName",
            "least_mm",
            "leastMm",
            "most_mm",
            "mostMm",
            "services",
            "letters_offered",
            "lettersOffered",
            "maker",
            "rush_offered",
            "rushOffered",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Revision,
            CurrencyCode,
            MinorDigits,
            Designs,
            Fabrics,
            Bindings,
            Trimmings,
            ShopName,
            LeastMm,
            MostMm,
            Services,
            LettersOffered,
            Maker,
            RushOffered,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "revision" => Ok(GeneratedField::Revision),
                            "currencyCode" | "currency_code" => {
                                Ok(GeneratedField::CurrencyCode)
                            }
                            "minorDigits" | "minor_digits" => {
                                Ok(GeneratedField::MinorDigits)
                            }
                            "designs" => Ok(GeneratedField::Designs),
                            "fabrics" => Ok(GeneratedField::Fabrics),
                            "bindings" => Ok(GeneratedField::Bindings),
                            "trimmings" => Ok(GeneratedField::Trimmings),
                            "shopName" | "shop_name" => Ok(GeneratedField::ShopName),
                            "leastMm" | "least_mm" => Ok(GeneratedField::LeastMm),
                            "mostMm" | "most_mm" => Ok(GeneratedField::MostMm),
                            "services" => Ok(GeneratedField::Services),
                            "lettersOffered" | "letters_offered" => {
                                Ok(GeneratedField::LettersOffered)
                            }
                            "maker" => Ok(GeneratedField::Maker),
                            "rushOffered" | "rush_offered" => {
                                Ok(GeneratedField::RushOffered)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Catalogue;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Catalogue")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<Catalogue, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut revision__ = None;
                let mut currency_code__ = None;
                let mut minor_digits__ = None;
                let mut designs__ = None;
                let mut fabrics__ = None;
                let mut bindings__ = None;
                let mut trimmings__ = None;
                let mut shop_name__ = None;
                let mut least_mm__ = None;
                let mut most_mm__ = None;
                let mut services__ = None;
                let mut letters_offered__ = None;
                let mut maker__ = None;
                let mut rush_offered__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Revision => {
                            if revision__.is_some() {
                                return Err(serde::de::Error::duplicate_field("revision"));
                            }
                            revision__ = Some(map_.next_value()?);
                        }
                        GeneratedField::CurrencyCode => {
                            if currency_code__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("currencyCode"),
                                );
                            }
                            currency_code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::MinorDigits => {
                            if minor_digits__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("minorDigits"),
                                );
                            }
                            minor_digits__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Designs => {
                            if designs__.is_some() {
                                return Err(serde::de::Error::duplicate_field("designs"));
                            }
                            designs__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Fabrics => {
                            if fabrics__.is_some() {
                                return Err(serde::de::Error::duplicate_field("fabrics"));
                            }
                            fabrics__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Bindings => {
                            if bindings__.is_some() {
                                return Err(serde::de::Error::duplicate_field("bindings"));
                            }
                            bindings__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Trimmings => {
                            if trimmings__.is_some() {
                                return Err(serde::de::Error::duplicate_field("trimmings"));
                            }
                            trimmings__ = Some(map_.next_value()?);
                        }
                        GeneratedField::ShopName => {
                            if shop_name__.is_some() {
                                return Err(serde::de::Error::duplicate_field("shopName"));
                            }
                            shop_name__ = Some(map_.next_value()?);
                        }
                        GeneratedField::LeastMm => {
                            if least_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("leastMm"));
                            }
                            least_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::MostMm => {
                            if most_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("mostMm"));
                            }
                            most_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Services => {
                            if services__.is_some() {
                                return Err(serde::de::Error::duplicate_field("services"));
                            }
                            services__ = Some(map_.next_value()?);
                        }
                        GeneratedField::LettersOffered => {
                            if letters_offered__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("lettersOffered"),
                                );
                            }
                            letters_offered__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Maker => {
                            if maker__.is_some() {
                                return Err(serde::de::Error::duplicate_field("maker"));
                            }
                            maker__ = map_.next_value()?;
                        }
                        GeneratedField::RushOffered => {
                            if rush_offered__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("rushOffered"),
                                );
                            }
                            rush_offered__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Catalogue {
                    revision: revision__.unwrap_or_default(),
                    currency_code: currency_code__.unwrap_or_default(),
                    minor_digits: minor_digits__.unwrap_or_default(),
                    designs: designs__.unwrap_or_default(),
                    fabrics: fabrics__.unwrap_or_default(),
                    bindings: bindings__.unwrap_or_default(),
                    trimmings: trimmings__.unwrap_or_default(),
                    shop_name: shop_name__.unwrap_or_default(),
                    least_mm: least_mm__.unwrap_or_default(),
                    most_mm: most_mm__.unwrap_or_default(),
                    services: services__.unwrap_or_default(),
                    letters_offered: letters_offered__.unwrap_or_default(),
                    maker: maker__,
                    rush_offered: rush_offered__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.Catalogue", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for CatalogueTrimming {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.CatalogueTrimming", len)?;
        if true {
            struct_ser.serialize_field("code", &self.code)?;
        }
        if true {
            struct_ser.serialize_field("name", &self.name)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for CatalogueTrimming {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["code", "name"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Code,
            Name,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "code" => Ok(GeneratedField::Code),
                            "name" => Ok(GeneratedField::Name),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = CatalogueTrimming;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.CatalogueTrimming")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<CatalogueTrimming, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut code__ = None;
                let mut name__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Code => {
                            if code__.is_some() {
                                return Err(serde::de::Error::duplicate_field("code"));
                            }
                            code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Name => {
                            if name__.is_some() {
                                return Err(serde::de::Error::duplicate_field("name"));
                            }
                            name__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(CatalogueTrimming {
                    code: code__.unwrap_or_default(),
                    name: name__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct(
                "pennantry.v1.CatalogueTrimming",
                FIELDS,
                GeneratedVisitor,
            )
    }
}
impl serde::Serialize for CheckQuoteRequest {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.CheckQuoteRequest", len)?;
        if let Some(v) = self.ticket.as_ref() {
            struct_ser.serialize_field("ticket", v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for CheckQuoteRequest {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["ticket"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Ticket,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "ticket" => Ok(GeneratedField::Ticket),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = CheckQuoteRequest;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.CheckQuoteRequest")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<CheckQuoteRequest, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut ticket__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Ticket => {
                            if ticket__.is_some() {
                                return Err(serde::de::Error::duplicate_field("ticket"));
                            }
                            ticket__ = map_.next_value()?;
                        }
                    }
                }
                Ok(CheckQuoteRequest {
                    ticket: ticket__,
                })
            }
        }
        deserializer
            .deserialize_struct(
                "pennantry.v1.CheckQuoteRequest",
                FIELDS,
                GeneratedVisitor,
            )
    }
}
impl serde::Serialize for CheckQuoteResponse {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.CheckQuoteResponse", len)?;
        if let Some(v) = self.check.as_ref() {
            struct_ser.serialize_field("check", v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for CheckQuoteResponse {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["check"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Check,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "check" => Ok(GeneratedField::Check),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = CheckQuoteResponse;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.CheckQuoteResponse")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<CheckQuoteResponse, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut check__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Check => {
                            if check__.is_some() {
                                return Err(serde::de::Error::duplicate_field("check"));
                            }
                            check__ = map_.next_value()?;
                        }
                    }
                }
                Ok(CheckQuoteResponse {
                    check: check__,
                })
            }
        }
        deserializer
            .deserialize_struct(
                "pennantry.v1.CheckQuoteResponse",
                FIELDS,
                GeneratedVisitor,
            )
    }
}
impl serde::Serialize for ChildFinding {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.ChildFinding", len)?;
        if true {
            let v = Outcome::try_from(self.outcome)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.outcome),
                ))?;
            struct_ser.serialize_field("outcome", &v)?;
        }
        if true {
            struct_ser.serialize_field("findings", &self.findings)?;
        }
        if let Some(v) = self.lowest_mm.as_ref() {
            struct_ser.serialize_field("lowestMm", v)?;
        }
        if true {
            let v = self
                .jurisdictions
                .iter()
                .cloned()
                .map(|v| {
                    Jurisdiction::try_from(v)
                        .map_err(|_| serde::ser::Error::custom(
                            format!("Invalid variant {}", v),
                        ))
                })
                .collect::<std::result::Result<Vec<_>, _>>()?;
            struct_ser.serialize_field("jurisdictions", &v)?;
        }
        if true {
            struct_ser.serialize_field("scope", &self.scope)?;
        }
        if true {
            struct_ser.serialize_field("acknowledge", &self.acknowledge)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for ChildFinding {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "outcome",
            "findings",
            "lowest_mm",
            "lowestMm",
            "jurisdictions",
            "scope",
            "acknowledge",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Outcome,
            Findings,
            LowestMm,
            Jurisdictions,
            Scope,
            Acknowledge,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "outcome" => Ok(GeneratedField::Outcome),
                            "findings" => Ok(GeneratedField::Findings),
                            "lowestMm" | "lowest_mm" => Ok(GeneratedField::LowestMm),
                            "jurisdictions" => Ok(GeneratedField::Jurisdictions),
                            "scope" => Ok(GeneratedField::Scope),
                            "acknowledge" => Ok(GeneratedField::Acknowledge),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = ChildFinding;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.ChildFinding")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<ChildFinding, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut outcome__ = None;
                let mut findings__ = None;
                let mut lowest_mm__ = None;
                let mut jurisdictions__ = None;
                let mut scope__ = None;
                let mut acknowledge__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Outcome => {
                            if outcome__.is_some() {
                                return Err(serde::de::Error::duplicate_field("outcome"));
                            }
                            outcome__ = Some(map_.next_value::<Outcome>()? as i32);
                        }
                        GeneratedField::Findings => {
                            if findings__.is_some() {
                                return Err(serde::de::Error::duplicate_field("findings"));
                            }
                            findings__ = Some(map_.next_value()?);
                        }
                        GeneratedField::LowestMm => {
                            if lowest_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("lowestMm"));
                            }
                            lowest_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::Jurisdictions => {
                            if jurisdictions__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("jurisdictions"),
                                );
                            }
                            jurisdictions__ = Some(
                                map_
                                    .next_value::<Vec<Jurisdiction>>()?
                                    .into_iter()
                                    .map(|x| x as i32)
                                    .collect(),
                            );
                        }
                        GeneratedField::Scope => {
                            if scope__.is_some() {
                                return Err(serde::de::Error::duplicate_field("scope"));
                            }
                            scope__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Acknowledge => {
                            if acknowledge__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("acknowledge"),
                                );
                            }
                            acknowledge__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(ChildFinding {
                    outcome: outcome__.unwrap_or_default(),
                    findings: findings__.unwrap_or_default(),
                    lowest_mm: lowest_mm__,
                    jurisdictions: jurisdictions__.unwrap_or_default(),
                    scope: scope__.unwrap_or_default(),
                    acknowledge: acknowledge__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.ChildFinding", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for ClothLay {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.ClothLay", len)?;
        if true {
            let v = Lay::try_from(self.kind)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.kind),
                ))?;
            struct_ser.serialize_field("kind", &v)?;
        }
        if true {
            struct_ser.serialize_field("layerCount", &self.layer_count)?;
        }
        if true {
            struct_ser.serialize_field("outlineCount", &self.outline_count)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for ClothLay {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "kind",
            "layer_count",
            "layerCount",
            "outline_count",
            "outlineCount",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Kind,
            LayerCount,
            OutlineCount,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "kind" => Ok(GeneratedField::Kind),
                            "layerCount" | "layer_count" => {
                                Ok(GeneratedField::LayerCount)
                            }
                            "outlineCount" | "outline_count" => {
                                Ok(GeneratedField::OutlineCount)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = ClothLay;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.ClothLay")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<ClothLay, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut kind__ = None;
                let mut layer_count__ = None;
                let mut outline_count__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Kind => {
                            if kind__.is_some() {
                                return Err(serde::de::Error::duplicate_field("kind"));
                            }
                            kind__ = Some(map_.next_value::<Lay>()? as i32);
                        }
                        GeneratedField::LayerCount => {
                            if layer_count__.is_some() {
                                return Err(serde::de::Error::duplicate_field("layerCount"));
                            }
                            layer_count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::OutlineCount => {
                            if outline_count__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("outlineCount"),
                                );
                            }
                            outline_count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                    }
                }
                Ok(ClothLay {
                    kind: kind__.unwrap_or_default(),
                    layer_count: layer_count__.unwrap_or_default(),
                    outline_count: outline_count__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.ClothLay", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for ClothPieces {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.ClothPieces", len)?;
        if true {
            struct_ser.serialize_field("count", &self.count)?;
        }
        if true {
            struct_ser.serialize_field("holds", &self.holds)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for ClothPieces {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["count", "holds"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Count,
            Holds,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "count" => Ok(GeneratedField::Count),
                            "holds" => Ok(GeneratedField::Holds),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = ClothPieces;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.ClothPieces")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<ClothPieces, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut count__ = None;
                let mut holds__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Count => {
                            if count__.is_some() {
                                return Err(serde::de::Error::duplicate_field("count"));
                            }
                            count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Holds => {
                            if holds__.is_some() {
                                return Err(serde::de::Error::duplicate_field("holds"));
                            }
                            holds__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                    }
                }
                Ok(ClothPieces {
                    count: count__.unwrap_or_default(),
                    holds: holds__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.ClothPieces", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for ClothRole {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "CLOTH_ROLE_UNSPECIFIED",
            Self::Pennants => "CLOTH_ROLE_PENNANTS",
            Self::Letters => "CLOTH_ROLE_LETTERS",
            Self::Web => "CLOTH_ROLE_WEB",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for ClothRole {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "CLOTH_ROLE_UNSPECIFIED",
            "CLOTH_ROLE_PENNANTS",
            "CLOTH_ROLE_LETTERS",
            "CLOTH_ROLE_WEB",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = ClothRole;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "CLOTH_ROLE_UNSPECIFIED" => Ok(ClothRole::Unspecified),
                    "CLOTH_ROLE_PENNANTS" => Ok(ClothRole::Pennants),
                    "CLOTH_ROLE_LETTERS" => Ok(ClothRole::Letters),
                    "CLOTH_ROLE_WEB" => Ok(ClothRole::Web),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for ColourOrder {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.ColourOrder", len)?;
        if let Some(v) = self.rule.as_ref() {
            let v = Rule::try_from(*v)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", * v),
                ))?;
            struct_ser.serialize_field("rule", &v)?;
        }
        if true {
            struct_ser.serialize_field("fabricCodes", &self.fabric_codes)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for ColourOrder {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["rule", "fabric_codes", "fabricCodes"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Rule,
            FabricCodes,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "rule" => Ok(GeneratedField::Rule),
                            "fabricCodes" | "fabric_codes" => {
                                Ok(GeneratedField::FabricCodes)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = ColourOrder;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.ColourOrder")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<ColourOrder, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut rule__ = None;
                let mut fabric_codes__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Rule => {
                            if rule__.is_some() {
                                return Err(serde::de::Error::duplicate_field("rule"));
                            }
                            rule__ = map_
                                .next_value::<::std::option::Option<Rule>>()?
                                .map(|x| x as i32);
                        }
                        GeneratedField::FabricCodes => {
                            if fabric_codes__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("fabricCodes"),
                                );
                            }
                            fabric_codes__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(ColourOrder {
                    rule: rule__,
                    fabric_codes: fabric_codes__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.ColourOrder", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Construction {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "CONSTRUCTION_UNSPECIFIED",
            Self::SinglePinked => "CONSTRUCTION_SINGLE_PINKED",
            Self::SinglePlain => "CONSTRUCTION_SINGLE_PLAIN",
            Self::DoubleTurned => "CONSTRUCTION_DOUBLE_TURNED",
            Self::DoublePinked => "CONSTRUCTION_DOUBLE_PINKED",
            Self::DoubleFused => "CONSTRUCTION_DOUBLE_FUSED",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for Construction {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "CONSTRUCTION_UNSPECIFIED",
            "CONSTRUCTION_SINGLE_PINKED",
            "CONSTRUCTION_SINGLE_PLAIN",
            "CONSTRUCTION_DOUBLE_TURNED",
            "CONSTRUCTION_DOUBLE_PINKED",
            "CONSTRUCTION_DOUBLE_FUSED",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = Construction;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "CONSTRUCTION_UNSPECIFIED" => Ok(Construction::Unspecified),
                    "CONSTRUCTION_SINGLE_PINKED" => Ok(Construction::SinglePinked),
                    "CONSTRUCTION_SINGLE_PLAIN" => Ok(Construction::SinglePlain),
                    "CONSTRUCTION_DOUBLE_TURNED" => Ok(Construction::DoubleTurned),
                    "CONSTRUCTION_DOUBLE_PINKED" => Ok(Construction::DoublePinked),
                    "CONSTRUCTION_DOUBLE_FUSED" => Ok(Construction::DoubleFused),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for Cost {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Cost", len)?;
        if true {
            struct_ser.serialize_field("lines", &self.lines)?;
        }
        if let Some(v) = self.total.as_ref() {
            struct_ser.serialize_field("total", v)?;
        }
        if let Some(v) = self.net.as_ref() {
            struct_ser.serialize_field("net", v)?;
        }
        if let Some(v) = self.surplus.as_ref() {
            struct_ser.serialize_field("surplus", v)?;
        }
        if let Some(v) = self.before_point.as_ref() {
            struct_ser.serialize_field("beforePoint", v)?;
        }
        if let Some(v) = self.floor.as_ref() {
            struct_ser.serialize_field("floor", v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Cost {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "lines",
            "total",
            "net",
            "surplus",
            "before_point",
            "beforePoint",
            "floor",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Lines,
            Total,
            Net,
            Surplus,
            BeforePoint,
            Floor,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "lines" => Ok(GeneratedField::Lines),
                            "total" => Ok(GeneratedField::Total),
                            "net" => Ok(GeneratedField::Net),
                            "surplus" => Ok(GeneratedField::Surplus),
                            "beforePoint" | "before_point" => {
                                Ok(GeneratedField::BeforePoint)
                            }
                            "floor" => Ok(GeneratedField::Floor),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Cost;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Cost")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Cost, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut lines__ = None;
                let mut total__ = None;
                let mut net__ = None;
                let mut surplus__ = None;
                let mut before_point__ = None;
                let mut floor__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Lines => {
                            if lines__.is_some() {
                                return Err(serde::de::Error::duplicate_field("lines"));
                            }
                            lines__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Total => {
                            if total__.is_some() {
                                return Err(serde::de::Error::duplicate_field("total"));
                            }
                            total__ = map_.next_value()?;
                        }
                        GeneratedField::Net => {
                            if net__.is_some() {
                                return Err(serde::de::Error::duplicate_field("net"));
                            }
                            net__ = map_.next_value()?;
                        }
                        GeneratedField::Surplus => {
                            if surplus__.is_some() {
                                return Err(serde::de::Error::duplicate_field("surplus"));
                            }
                            surplus__ = map_.next_value()?;
                        }
                        GeneratedField::BeforePoint => {
                            if before_point__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("beforePoint"),
                                );
                            }
                            before_point__ = map_.next_value()?;
                        }
                        GeneratedField::Floor => {
                            if floor__.is_some() {
                                return Err(serde::de::Error::duplicate_field("floor"));
                            }
                            floor__ = map_.next_value()?;
                        }
                    }
                }
                Ok(Cost {
                    lines: lines__.unwrap_or_default(),
                    total: total__,
                    net: net__,
                    surplus: surplus__,
                    before_point: before_point__,
                    floor: floor__,
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Cost", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for CustomsDeclaration {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.CustomsDeclaration", len)?;
        if true {
            struct_ser.serialize_field("description", &self.description)?;
        }
        if true {
            struct_ser.serialize_field("tariffCode", &self.tariff_code)?;
        }
        if true {
            struct_ser.serialize_field("tariffReason", &self.tariff_reason)?;
        }
        if true {
            struct_ser.serialize_field("originCountryCode", &self.origin_country_code)?;
        }
        if true {
            struct_ser.serialize_field("stringCount", &self.string_count)?;
        }
        if true {
            struct_ser.serialize_field("netGrams", &self.net_grams)?;
        }
        if true {
            struct_ser.serialize_field("grossGrams", &self.gross_grams)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for CustomsDeclaration {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "description",
            "tariff_code",
            "tariffCode",
            "tariff_reason",
            "tariffReason",
            "origin_country_code",
            "originCountryCode",
            "string_count",
            "stringCount",
            "net_grams",
            "netGrams",
            "gross_grams",
            "grossGrams",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Description,
            TariffCode,
            TariffReason,
            OriginCountryCode,
            StringCount,
            NetGrams,
            GrossGrams,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "description" => Ok(GeneratedField::Description),
                            "tariffCode" | "tariff_code" => {
                                Ok(GeneratedField::TariffCode)
                            }
                            "tariffReason" | "tariff_reason" => {
                                Ok(GeneratedField::TariffReason)
                            }
                            "originCountryCode" | "origin_country_code" => {
                                Ok(GeneratedField::OriginCountryCode)
                            }
                            "stringCount" | "string_count" => {
                                Ok(GeneratedField::StringCount)
                            }
                            "netGrams" | "net_grams" => Ok(GeneratedField::NetGrams),
                            "grossGrams" | "gross_grams" => {
                                Ok(GeneratedField::GrossGrams)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = CustomsDeclaration;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.CustomsDeclaration")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<CustomsDeclaration, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut description__ = None;
                let mut tariff_code__ = None;
                let mut tariff_reason__ = None;
                let mut origin_country_code__ = None;
                let mut string_count__ = None;
                let mut net_grams__ = None;
                let mut gross_grams__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Description => {
                            if description__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("description"),
                                );
                            }
                            description__ = Some(map_.next_value()?);
                        }
                        GeneratedField::TariffCode => {
                            if tariff_code__.is_some() {
                                return Err(serde::de::Error::duplicate_field("tariffCode"));
                            }
                            tariff_code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::TariffReason => {
                            if tariff_reason__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("tariffReason"),
                                );
                            }
                            tariff_reason__ = Some(map_.next_value()?);
                        }
                        GeneratedField::OriginCountryCode => {
                            if origin_country_code__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("originCountryCode"),
                                );
                            }
                            origin_country_code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::StringCount => {
                            if string_count__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("stringCount"),
                                );
                            }
                            string_count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::NetGrams => {
                            if net_grams__.is_some() {
                                return Err(serde::de::Error::duplicate_field("netGrams"));
                            }
                            net_grams__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::GrossGrams => {
                            if gross_grams__.is_some() {
                                return Err(serde::de::Error::duplicate_field("grossGrams"));
                            }
                            gross_grams__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                    }
                }
                Ok(CustomsDeclaration {
                    description: description__.unwrap_or_default(),
                    tariff_code: tariff_code__.unwrap_or_default(),
                    tariff_reason: tariff_reason__.unwrap_or_default(),
                    origin_country_code: origin_country_code__.unwrap_or_default(),
                    string_count: string_count__.unwrap_or_default(),
                    net_grams: net_grams__.unwrap_or_default(),
                    gross_grams: gross_grams__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct(
                "pennantry.v1.CustomsDeclaration",
                FIELDS,
                GeneratedVisitor,
            )
    }
}
impl serde::Serialize for CuttingPlan {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.CuttingPlan", len)?;
        if true {
            struct_ser.serialize_field("clothWidthMm", &self.cloth_width_mm)?;
        }
        if true {
            struct_ser.serialize_field("clearanceMm", &self.clearance_mm)?;
        }
        if true {
            struct_ser.serialize_field("rowGapMm", &self.row_gap_mm)?;
        }
        if true {
            struct_ser.serialize_field("squaringMm", &self.squaring_mm)?;
        }
        if true {
            struct_ser.serialize_field("bands", &self.bands)?;
        }
        if true {
            struct_ser.serialize_field("zeroTolerance", &self.zero_tolerance)?;
        }
        if true {
            struct_ser.serialize_field("aboveBoundPercent", &self.above_bound_percent)?;
        }
        if true {
            struct_ser.serialize_field("roomCount", &self.room_count)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for CuttingPlan {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "cloth_width_mm",
            "clothWidthMm",
            "clearance_mm",
            "clearanceMm",
            "row_gap_mm",
            "rowGapMm",
            "squaring_mm",
            "squaringMm",
            "bands",
            "zero_tolerance",
            "zeroTolerance",
            "above_bound_percent",
            "aboveBoundPercent",
            "room_count",
            "roomCount",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            ClothWidthMm,
            ClearanceMm,
            RowGapMm,
            SquaringMm,
            Bands,
            ZeroTolerance,
            AboveBoundPercent,
            RoomCount,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "clothWidthMm" | "cloth_width_mm" => {
                                Ok(GeneratedField::ClothWidthMm)
                            }
                            "clearanceMm" | "clearance_mm" => {
                                Ok(GeneratedField::ClearanceMm)
                            }
                            "rowGapMm" | "row_gap_mm" => Ok(GeneratedField::RowGapMm),
                            "squaringMm" | "squaring_mm" => {
                                Ok(GeneratedField::SquaringMm)
                            }
                            "bands" => Ok(GeneratedField::Bands),
                            "zeroTolerance" | "zero_tolerance" => {
                                Ok(GeneratedField::ZeroTolerance)
                            }
                            "aboveBoundPercent" | "above_bound_percent" => {
                                Ok(GeneratedField::AboveBoundPercent)
                            }
                            "roomCount" | "room_count" => Ok(GeneratedField::RoomCount),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = CuttingPlan;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.CuttingPlan")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<CuttingPlan, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut cloth_width_mm__ = None;
                let mut clearance_mm__ = None;
                let mut row_gap_mm__ = None;
                let mut squaring_mm__ = None;
                let mut bands__ = None;
                let mut zero_tolerance__ = None;
                let mut above_bound_percent__ = None;
                let mut room_count__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::ClothWidthMm => {
                            if cloth_width_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("clothWidthMm"),
                                );
                            }
                            cloth_width_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::ClearanceMm => {
                            if clearance_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("clearanceMm"),
                                );
                            }
                            clearance_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::RowGapMm => {
                            if row_gap_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("rowGapMm"));
                            }
                            row_gap_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::SquaringMm => {
                            if squaring_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("squaringMm"));
                            }
                            squaring_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Bands => {
                            if bands__.is_some() {
                                return Err(serde::de::Error::duplicate_field("bands"));
                            }
                            bands__ = Some(map_.next_value()?);
                        }
                        GeneratedField::ZeroTolerance => {
                            if zero_tolerance__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("zeroTolerance"),
                                );
                            }
                            zero_tolerance__ = Some(map_.next_value()?);
                        }
                        GeneratedField::AboveBoundPercent => {
                            if above_bound_percent__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("aboveBoundPercent"),
                                );
                            }
                            above_bound_percent__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::RoomCount => {
                            if room_count__.is_some() {
                                return Err(serde::de::Error::duplicate_field("roomCount"));
                            }
                            room_count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                    }
                }
                Ok(CuttingPlan {
                    cloth_width_mm: cloth_width_mm__.unwrap_or_default(),
                    clearance_mm: clearance_mm__.unwrap_or_default(),
                    row_gap_mm: row_gap_mm__.unwrap_or_default(),
                    squaring_mm: squaring_mm__.unwrap_or_default(),
                    bands: bands__.unwrap_or_default(),
                    zero_tolerance: zero_tolerance__.unwrap_or_default(),
                    above_bound_percent: above_bound_percent__.unwrap_or_default(),
                    room_count: room_count__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.CuttingPlan", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Dates {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Dates", len)?;
        if true {
            struct_ser.serialize_field("leaveDate", &self.leave_date)?;
        }
        if let Some(v) = self.arrive_from.as_ref() {
            struct_ser.serialize_field("arriveFrom", v)?;
        }
        if let Some(v) = self.arrive_to.as_ref() {
            struct_ser.serialize_field("arriveTo", v)?;
        }
        if let Some(v) = self.wanted_kept.as_ref() {
            struct_ser.serialize_field("wantedKept", v)?;
        }
        if let Some(v) = self.order_by_date.as_ref() {
            struct_ser.serialize_field("orderByDate", v)?;
        }
        if true {
            struct_ser.serialize_field("beginDate", &self.begin_date)?;
        }
        if true {
            struct_ser.serialize_field("doneDate", &self.done_date)?;
        }
        if true {
            struct_ser.serialize_field("estimated", &self.estimated)?;
        }
        if true {
            struct_ser.serialize_field("ways", &self.ways)?;
        }
        if true {
            struct_ser.serialize_field("orderByEstimated", &self.order_by_estimated)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Dates {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "leave_date",
            "leaveDate",
            "arrive_from",
            "arriveFrom",
            "arrive_to",
            "arriveTo",
            "wanted_kept",
            "wantedKept",
            "order_by_date",
            "orderByDate",
            "begin_date",
            "beginDate",
            "done_date",
            "doneDate",
            "estimated",
            "ways",
            "order_by_estimated",
            "orderByEstimated",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            LeaveDate,
            ArriveFrom,
            ArriveTo,
            WantedKept,
            OrderByDate,
            BeginDate,
            DoneDate,
            Estimated,
            Ways,
            OrderByEstimated,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "leaveDate" | "leave_date" => Ok(GeneratedField::LeaveDate),
                            "arriveFrom" | "arrive_from" => {
                                Ok(GeneratedField::ArriveFrom)
                            }
                            "arriveTo" | "arrive_to" => Ok(GeneratedField::ArriveTo),
                            "wantedKept" | "wanted_kept" => {
                                Ok(GeneratedField::WantedKept)
                            }
                            "orderByDate" | "order_by_date" => {
                                Ok(GeneratedField::OrderByDate)
                            }
                            "beginDate" | "begin_date" => Ok(GeneratedField::BeginDate),
                            "doneDate" | "done_date" => Ok(GeneratedField::DoneDate),
                            "estimated" => Ok(GeneratedField::Estimated),
                            "ways" => Ok(GeneratedField::Ways),
                            "orderByEstimated" | "order_by_estimated" => {
                                Ok(GeneratedField::OrderByEstimated)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Dates;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Dates")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Dates, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut leave_date__ = None;
                let mut arrive_from__ = None;
                let mut arrive_to__ = None;
                let mut wanted_kept__ = None;
                let mut order_by_date__ = None;
                let mut begin_date__ = None;
                let mut done_date__ = None;
                let mut estimated__ = None;
                let mut ways__ = None;
                let mut order_by_estimated__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::LeaveDate => {
                            if leave_date__.is_some() {
                                return Err(serde::de::Error::duplicate_field("leaveDate"));
                            }
                            leave_date__ = Some(map_.next_value()?);
                        }
                        GeneratedField::ArriveFrom => {
                            if arrive_from__.is_some() {
                                return Err(serde::de::Error::duplicate_field("arriveFrom"));
                            }
                            arrive_from__ = map_.next_value()?;
                        }
                        GeneratedField::ArriveTo => {
                            if arrive_to__.is_some() {
                                return Err(serde::de::Error::duplicate_field("arriveTo"));
                            }
                            arrive_to__ = map_.next_value()?;
                        }
                        GeneratedField::WantedKept => {
                            if wanted_kept__.is_some() {
                                return Err(serde::de::Error::duplicate_field("wantedKept"));
                            }
                            wanted_kept__ = map_.next_value()?;
                        }
                        GeneratedField::OrderByDate => {
                            if order_by_date__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("orderByDate"),
                                );
                            }
                            order_by_date__ = map_.next_value()?;
                        }
                        GeneratedField::BeginDate => {
                            if begin_date__.is_some() {
                                return Err(serde::de::Error::duplicate_field("beginDate"));
                            }
                            begin_date__ = Some(map_.next_value()?);
                        }
                        GeneratedField::DoneDate => {
                            if done_date__.is_some() {
                                return Err(serde::de::Error::duplicate_field("doneDate"));
                            }
                            done_date__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Estimated => {
                            if estimated__.is_some() {
                                return Err(serde::de::Error::duplicate_field("estimated"));
                            }
                            estimated__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Ways => {
                            if ways__.is_some() {
                                return Err(serde::de::Error::duplicate_field("ways"));
                            }
                            ways__ = Some(map_.next_value()?);
                        }
                        GeneratedField::OrderByEstimated => {
                            if order_by_estimated__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("orderByEstimated"),
                                );
                            }
                            order_by_estimated__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Dates {
                    leave_date: leave_date__.unwrap_or_default(),
                    arrive_from: arrive_from__,
                    arrive_to: arrive_to__,
                    wanted_kept: wanted_kept__,
                    order_by_date: order_by_date__,
                    begin_date: begin_date__.unwrap_or_default(),
                    done_date: done_date__.unwrap_or_default(),
                    estimated: estimated__.unwrap_or_default(),
                    ways: ways__.unwrap_or_default(),
                    order_by_estimated: order_by_estimated__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Dates", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Design {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Design", len)?;
        if true {
            struct_ser.serialize_field("code", &self.code)?;
        }
        if true {
            struct_ser.serialize_field("name", &self.name)?;
        }
        if let Some(v) = self.pennant.as_ref() {
            struct_ser.serialize_field("pennant", v)?;
        }
        if true {
            struct_ser.serialize_field("gapMm", &self.gap_mm)?;
        }
        if true {
            struct_ser.serialize_field("tailMm", &self.tail_mm)?;
        }
        if true {
            let v = Construction::try_from(self.construction)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.construction),
                ))?;
            struct_ser.serialize_field("construction", &v)?;
        }
        if true {
            let v = self
                .constructions
                .iter()
                .cloned()
                .map(|v| {
                    Construction::try_from(v)
                        .map_err(|_| serde::ser::Error::custom(
                            format!("Invalid variant {}", v),
                        ))
                })
                .collect::<std::result::Result<Vec<_>, _>>()?;
            struct_ser.serialize_field("constructions", &v)?;
        }
        if true {
            struct_ser.serialize_field("bindingCode", &self.binding_code)?;
        }
        if true {
            struct_ser.serialize_field("fabricCodes", &self.fabric_codes)?;
        }
        if true {
            struct_ser.serialize_field("usualMm", &self.usual_mm)?;
        }
        if true {
            struct_ser.serialize_field("stockLengthsMm", &self.stock_lengths_mm)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Design {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "code",
            "name",
            "pennant",
            "gap_mm",
            "gapMm",
            "tail_mm",
            "tailMm",
            "construction",
            "constructions",
            "binding_code",
            "bindingCode",
            "fabric_codes",
            "fabricCodes",
            "usual_mm",
            "usualMm",
            "stock_lengths_mm",
            "stockLengthsMm",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Code,
            Name,
            Pennant,
            GapMm,
            TailMm,
            Construction,
            Constructions,
            BindingCode,
            FabricCodes,
            UsualMm,
            StockLengthsMm,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "code" => Ok(GeneratedField::Code),
                            "name" => Ok(GeneratedField::Name),
                            "pennant" => Ok(GeneratedField::Pennant),
                            "gapMm" | "gap_mm" => Ok(GeneratedField::GapMm),
                            "tailMm" | "tail_mm" => Ok(GeneratedField::TailMm),
                            "construction" => Ok(GeneratedField::Construction),
                            "constructions" => Ok(GeneratedField::Constructions),
                            "bindingCode" | "binding_code" => {
                                Ok(GeneratedField::BindingCode)
                            }
                            "fabricCodes" | "fabric_codes" => {
                                Ok(GeneratedField::FabricCodes)
                            }
                            "usualMm" | "usual_mm" => Ok(GeneratedField::UsualMm),
                            "stockLengthsMm" | "stock_lengths_mm" => {
                                Ok(GeneratedField::StockLengthsMm)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Design;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Design")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Design, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut code__ = None;
                let mut name__ = None;
                let mut pennant__ = None;
                let mut gap_mm__ = None;
                let mut tail_mm__ = None;
                let mut construction__ = None;
                let mut constructions__ = None;
                let mut binding_code__ = None;
                let mut fabric_codes__ = None;
                let mut usual_mm__ = None;
                let mut stock_lengths_mm__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Code => {
                            if code__.is_some() {
                                return Err(serde::de::Error::duplicate_field("code"));
                            }
                            code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Name => {
                            if name__.is_some() {
                                return Err(serde::de::Error::duplicate_field("name"));
                            }
                            name__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Pennant => {
                            if pennant__.is_some() {
                                return Err(serde::de::Error::duplicate_field("pennant"));
                            }
                            pennant__ = map_.next_value()?;
                        }
                        GeneratedField::GapMm => {
                            if gap_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("gapMm"));
                            }
                            gap_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::TailMm => {
                            if tail_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("tailMm"));
                            }
                            tail_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Construction => {
                            if construction__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("construction"),
                                );
                            }
                            construction__ = Some(
                                map_.next_value::<Construction>()? as i32,
                            );
                        }
                        GeneratedField::Constructions => {
                            if constructions__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("constructions"),
                                );
                            }
                            constructions__ = Some(
                                map_
                                    .next_value::<Vec<Construction>>()?
                                    .into_iter()
                                    .map(|x| x as i32)
                                    .collect(),
                            );
                        }
                        GeneratedField::BindingCode => {
                            if binding_code__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("bindingCode"),
                                );
                            }
                            binding_code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::FabricCodes => {
                            if fabric_codes__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("fabricCodes"),
                                );
                            }
                            fabric_codes__ = Some(map_.next_value()?);
                        }
                        GeneratedField::UsualMm => {
                            if usual_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("usualMm"));
                            }
                            usual_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::StockLengthsMm => {
                            if stock_lengths_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("stockLengthsMm"),
                                );
                            }
                            stock_lengths_mm__ = Some(
                                map_
                                    .next_value::<
                                        Vec<::pbjson::private::NumberDeserialize<_>>,
                                    >()?
                                    .into_iter()
                                    .map(|x| x.0)
                                    .collect(),
                            );
                        }
                    }
                }
                Ok(Design {
                    code: code__.unwrap_or_default(),
                    name: name__.unwrap_or_default(),
                    pennant: pennant__,
                    gap_mm: gap_mm__.unwrap_or_default(),
                    tail_mm: tail_mm__.unwrap_or_default(),
                    construction: construction__.unwrap_or_default(),
                    constructions: constructions__.unwrap_or_default(),
                    binding_code: binding_code__.unwrap_or_default(),
                    fabric_codes: fabric_codes__.unwrap_or_default(),
                    usual_mm: usual_mm__.unwrap_or_default(),
                    stock_lengths_mm: stock_lengths_mm__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Design", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Destination {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.Destination", len)?;
        if true {
            struct_ser.serialize_field("countryCode", &self.country_code)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Destination {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["country_code", "countryCode"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            CountryCode,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "countryCode" | "country_code" => {
                                Ok(GeneratedField::CountryCode)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Destination;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Destination")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<Destination, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut country_code__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::CountryCode => {
                            if country_code__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("countryCode"),
                                );
                            }
                            country_code__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Destination {
                    country_code: country_code__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.Destination", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Discount {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if self.off.is_some() {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Discount", len)?;
        if true {
            struct_ser.serialize_field("reason", &self.reason)?;
        }
        if let Some(v) = self.off.as_ref() {
            match v {
                discount::Off::Percent(v) => {
                    struct_ser.serialize_field("percent", v)?;
                }
                discount::Off::MinorUnits(v) => {
                    #[allow(clippy::needless_borrow)]
                    #[allow(clippy::needless_borrows_for_generic_args)]
                    struct_ser
                        .serialize_field(
                            "minorUnits",
                            ToString::to_string(&v).as_str(),
                        )?;
                }
            }
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Discount {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["reason", "percent", "minor_units", "minorUnits"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Reason,
            Percent,
            MinorUnits,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "reason" => Ok(GeneratedField::Reason),
                            "percent" => Ok(GeneratedField::Percent),
                            "minorUnits" | "minor_units" => {
                                Ok(GeneratedField::MinorUnits)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Discount;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Discount")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Discount, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut reason__ = None;
                let mut off__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Reason => {
                            if reason__.is_some() {
                                return Err(serde::de::Error::duplicate_field("reason"));
                            }
                            reason__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Percent => {
                            if off__.is_some() {
                                return Err(serde::de::Error::duplicate_field("percent"));
                            }
                            off__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| discount::Off::Percent(x.0));
                        }
                        GeneratedField::MinorUnits => {
                            if off__.is_some() {
                                return Err(serde::de::Error::duplicate_field("minorUnits"));
                            }
                            off__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| discount::Off::MinorUnits(x.0));
                        }
                    }
                }
                Ok(Discount {
                    reason: reason__.unwrap_or_default(),
                    off: off__,
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.Discount", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Driver {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "DRIVER_UNSPECIFIED",
            Self::Order => "DRIVER_ORDER",
            Self::String => "DRIVER_STRING",
            Self::Pennant => "DRIVER_PENNANT",
            Self::Piece => "DRIVER_PIECE",
            Self::Outline => "DRIVER_OUTLINE",
            Self::Layer => "DRIVER_LAYER",
            Self::Metre => "DRIVER_METRE",
            Self::End => "DRIVER_END",
            Self::Join => "DRIVER_JOIN",
            Self::Letter => "DRIVER_LETTER",
            Self::Trimming => "DRIVER_TRIMMING",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for Driver {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "DRIVER_UNSPECIFIED",
            "DRIVER_ORDER",
            "DRIVER_STRING",
            "DRIVER_PENNANT",
            "DRIVER_PIECE",
            "DRIVER_OUTLINE",
            "DRIVER_LAYER",
            "DRIVER_METRE",
            "DRIVER_END",
            "DRIVER_JOIN",
            "DRIVER_LETTER",
            "DRIVER_TRIMMING",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = Driver;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "DRIVER_UNSPECIFIED" => Ok(Driver::Unspecified),
                    "DRIVER_ORDER" => Ok(Driver::Order),
                    "DRIVER_STRING" => Ok(Driver::String),
                    "DRIVER_PENNANT" => Ok(Driver::Pennant),
                    "DRIVER_PIECE" => Ok(Driver::Piece),
                    "DRIVER_OUTLINE" => Ok(Driver::Outline),
                    "DRIVER_LAYER" => Ok(Driver::Layer),
                    "DRIVER_METRE" => Ok(Driver::Metre),
                    "DRIVER_END" => Ok(Driver::End),
                    "DRIVER_JOIN" => Ok(Driver::Join),
                    "DRIVER_LETTER" => Ok(Driver::Letter),
                    "DRIVER_TRIMMING" => Ok(Driver::Trimming),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for End {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.End", len)?;
        if let Some(v) = self.style.as_ref() {
            let v = EndStyle::try_from(*v)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", * v),
                ))?;
            struct_ser.serialize_field("style", &v)?;
        }
        if let Some(v) = self.loop_mm.as_ref() {
            struct_ser.serialize_field("loopMm", v)?;
        }
        if let Some(v) = self.slips.as_ref() {
            struct_ser.serialize_field("slips", v)?;
        }
        if let Some(v) = self.breakaway_n.as_ref() {
            struct_ser.serialize_field("breakawayN", v)?;
        }
        if let Some(v) = self.tie_mm.as_ref() {
            struct_ser.serialize_field("tieMm", v)?;
        }
        if let Some(v) = self.second_tie_mm.as_ref() {
            struct_ser.serialize_field("secondTieMm", v)?;
        }
        if let Some(v) = self.ties_apart_mm.as_ref() {
            struct_ser.serialize_field("tiesApartMm", v)?;
        }
        if let Some(v) = self.trimming_code.as_ref() {
            struct_ser.serialize_field("trimmingCode", v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for End {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "style",
            "loop_mm",
            "loopMm",
            "slips",
            "breakaway_n",
            "breakawayN",
            "tie_mm",
            "tieMm",
            "second_tie_mm",
            "secondTieMm",
            "ties_apart_mm",
            "tiesApartMm",
            "trimming_code",
            "trimmingCode",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Style,
            LoopMm,
            Slips,
            BreakawayN,
            TieMm,
            SecondTieMm,
            TiesApartMm,
            TrimmingCode,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "style" => Ok(GeneratedField::Style),
                            "loopMm" | "loop_mm" => Ok(GeneratedField::LoopMm),
                            "slips" => Ok(GeneratedField::Slips),
                            "breakawayN" | "breakaway_n" => {
                                Ok(GeneratedField::BreakawayN)
                            }
                            "tieMm" | "tie_mm" => Ok(GeneratedField::TieMm),
                            "secondTieMm" | "second_tie_mm" => {
                                Ok(GeneratedField::SecondTieMm)
                            }
                            "tiesApartMm" | "ties_apart_mm" => {
                                Ok(GeneratedField::TiesApartMm)
                            }
                            "trimmingCode" | "trimming_code" => {
                                Ok(GeneratedField::TrimmingCode)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = End;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.End")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<End, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut style__ = None;
                let mut loop_mm__ = None;
                let mut slips__ = None;
                let mut breakaway_n__ = None;
                let mut tie_mm__ = None;
                let mut second_tie_mm__ = None;
                let mut ties_apart_mm__ = None;
                let mut trimming_code__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Style => {
                            if style__.is_some() {
                                return Err(serde::de::Error::duplicate_field("style"));
                            }
                            style__ = map_
                                .next_value::<::std::option::Option<EndStyle>>()?
                                .map(|x| x as i32);
                        }
                        GeneratedField::LoopMm => {
                            if loop_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("loopMm"));
                            }
                            loop_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::Slips => {
                            if slips__.is_some() {
                                return Err(serde::de::Error::duplicate_field("slips"));
                            }
                            slips__ = map_.next_value()?;
                        }
                        GeneratedField::BreakawayN => {
                            if breakaway_n__.is_some() {
                                return Err(serde::de::Error::duplicate_field("breakawayN"));
                            }
                            breakaway_n__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::TieMm => {
                            if tie_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("tieMm"));
                            }
                            tie_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::SecondTieMm => {
                            if second_tie_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("secondTieMm"),
                                );
                            }
                            second_tie_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::TiesApartMm => {
                            if ties_apart_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("tiesApartMm"),
                                );
                            }
                            ties_apart_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::TrimmingCode => {
                            if trimming_code__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("trimmingCode"),
                                );
                            }
                            trimming_code__ = map_.next_value()?;
                        }
                    }
                }
                Ok(End {
                    style: style__,
                    loop_mm: loop_mm__,
                    slips: slips__,
                    breakaway_n: breakaway_n__,
                    tie_mm: tie_mm__,
                    second_tie_mm: second_tie_mm__,
                    ties_apart_mm: ties_apart_mm__,
                    trimming_code: trimming_code__,
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.End", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for EndStyle {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "END_STYLE_UNSPECIFIED",
            Self::Plain => "END_STYLE_PLAIN",
            Self::Loop => "END_STYLE_LOOP",
            Self::Tie => "END_STYLE_TIE",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for EndStyle {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "END_STYLE_UNSPECIFIED",
            "END_STYLE_PLAIN",
            "END_STYLE_LOOP",
            "END_STYLE_TIE",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = EndStyle;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "END_STYLE_UNSPECIFIED" => Ok(EndStyle::Unspecified),
                    "END_STYLE_PLAIN" => Ok(EndStyle::Plain),
                    "END_STYLE_LOOP" => Ok(EndStyle::Loop),
                    "END_STYLE_TIE" => Ok(EndStyle::Tie),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for Enquiry {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if self.length.is_some() {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Enquiry", len)?;
        if let Some(v) = self.design_code.as_ref() {
            struct_ser.serialize_field("designCode", v)?;
        }
        if let Some(v) = self.pennant_count.as_ref() {
            struct_ser.serialize_field("pennantCount", v)?;
        }
        if let Some(v) = self.gap_mm.as_ref() {
            struct_ser.serialize_field("gapMm", v)?;
        }
        if let Some(v) = self.tail_mm.as_ref() {
            struct_ser.serialize_field("tailMm", v)?;
        }
        if let Some(v) = self.fit.as_ref() {
            struct_ser.serialize_field("fit", v)?;
        }
        if let Some(v) = self.pennant.as_ref() {
            struct_ser.serialize_field("pennant", v)?;
        }
        if let Some(v) = self.construction.as_ref() {
            let v = Construction::try_from(*v)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", * v),
                ))?;
            struct_ser.serialize_field("construction", &v)?;
        }
        if let Some(v) = self.backing.as_ref() {
            struct_ser.serialize_field("backing", v)?;
        }
        if let Some(v) = self.colour_order.as_ref() {
            struct_ser.serialize_field("colourOrder", v)?;
        }
        if let Some(v) = self.lettering.as_ref() {
            struct_ser.serialize_field("lettering", v)?;
        }
        if let Some(v) = self.binding_code.as_ref() {
            struct_ser.serialize_field("bindingCode", v)?;
        }
        if let Some(v) = self.finish.as_ref() {
            struct_ser.serialize_field("finish", v)?;
        }
        if let Some(v) = self.quantity.as_ref() {
            struct_ser.serialize_field("quantity", v)?;
        }
        if let Some(v) = self.near.as_ref() {
            struct_ser.serialize_field("near", v)?;
        }
        if let Some(v) = self.destination.as_ref() {
            struct_ser.serialize_field("destination", v)?;
        }
        if let Some(v) = self.service.as_ref() {
            struct_ser.serialize_field("service", v)?;
        }
        if let Some(v) = self.wanted_date.as_ref() {
            struct_ser.serialize_field("wantedDate", v)?;
        }
        if let Some(v) = self.view.as_ref() {
            let v = View::try_from(*v)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", * v),
                ))?;
            struct_ser.serialize_field("view", &v)?;
        }
        if let Some(v) = self.workings.as_ref() {
            struct_ser.serialize_field("workings", v)?;
        }
        if let Some(v) = self.shelf.as_ref() {
            struct_ser.serialize_field("shelf", v)?;
        }
        if let Some(v) = self.discount.as_ref() {
            struct_ser.serialize_field("discount", v)?;
        }
        if let Some(v) = self.rush.as_ref() {
            struct_ser.serialize_field("rush", v)?;
        }
        if let Some(v) = self.as_of_date.as_ref() {
            struct_ser.serialize_field("asOfDate", v)?;
        }
        if let Some(v) = self.length.as_ref() {
            match v {
                enquiry::Length::FlaggedMm(v) => {
                    struct_ser.serialize_field("flaggedMm", v)?;
                }
                enquiry::Length::OverallMm(v) => {
                    struct_ser.serialize_field("overallMm", v)?;
                }
                enquiry::Length::BindingMm(v) => {
                    struct_ser.serialize_field("bindingMm", v)?;
                }
                enquiry::Length::Hang(v) => {
                    struct_ser.serialize_field("hang", v)?;
                }
            }
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Enquiry {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "design_code",
            "designCode",
            "pennant_count",
            "pennantCount",
            "gap_mm",
            "gapMm",
            "tail_mm",
            "tailMm",
            "fit",
            "pennant",
            "construction",
            "backing",
            "colour_order",
            "colourOrder",
            "lettering",
            "binding_code",
            "bindingCode",
            "finish",
            "quantity",
            "near",
            "destination",
            "service",
            "wanted_date",
            "wantedDate",
            "view",
            "workings",
            "shelf",
            "discount",
            "rush",
            "as_of_date",
            "asOfDate",
            "flagged_mm",
            "flaggedMm",
            "overall_mm",
            "overallMm",
            "binding_mm",
            "bindingMm",
            "hang",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            DesignCode,
            PennantCount,
            GapMm,
            TailMm,
            Fit,
            Pennant,
            Construction,
            Backing,
            ColourOrder,
            Lettering,
            BindingCode,
            Finish,
            Quantity,
            Near,
            Destination,
            Service,
            WantedDate,
            View,
            Workings,
            Shelf,
            Discount,
            Rush,
            AsOfDate,
            FlaggedMm,
            OverallMm,
            BindingMm,
            Hang,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "designCode" | "design_code" => {
                                Ok(GeneratedField::DesignCode)
                            }
                            "pennantCount" | "pennant_count" => {
                                Ok(GeneratedField::PennantCount)
                            }
                            "gapMm" | "gap_mm" => Ok(GeneratedField::GapMm),
                            "tailMm" | "tail_mm" => Ok(GeneratedField::TailMm),
                            "fit" => Ok(GeneratedField::Fit),
                            "pennant" => Ok(GeneratedField::Pennant),
                            "construction" => Ok(GeneratedField::Construction),
                            "backing" => Ok(GeneratedField::Backing),
                            "colourOrder" | "colour_order" => {
                                Ok(GeneratedField::ColourOrder)
                            }
                            "lettering" => Ok(GeneratedField::Lettering),
                            "bindingCode" | "binding_code" => {
                                Ok(GeneratedField::BindingCode)
                            }
                            "finish" => Ok(GeneratedField::Finish),
                            "quantity" => Ok(GeneratedField::Quantity),
                            "near" => Ok(GeneratedField::Near),
                            "destination" => Ok(GeneratedField::Destination),
                            "service" => Ok(GeneratedField::Service),
                            "wantedDate" | "wanted_date" => {
                                Ok(GeneratedField::WantedDate)
                            }
                            "view" => Ok(GeneratedField::View),
                            "workings" => Ok(GeneratedField::Workings),
                            "shelf" => Ok(GeneratedField::Shelf),
                            "discount" => Ok(GeneratedField::Discount),
                            "rush" => Ok(GeneratedField::Rush),
                            "asOfDate" | "as_of_date" => Ok(GeneratedField::AsOfDate),
                            "flaggedMm" | "flagged_mm" => Ok(GeneratedField::FlaggedMm),
                            "overallMm" | "overall_mm" => Ok(GeneratedField::OverallMm),
                            "bindingMm" | "binding_mm" => Ok(GeneratedField::BindingMm),
                            "hang" => Ok(GeneratedField::Hang),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Enquiry;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Enquiry")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Enquiry, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut design_code__ = None;
                let mut pennant_count__ = None;
                let mut gap_mm__ = None;
                let mut tail_mm__ = None;
                let mut fit__ = None;
                let mut pennant__ = None;
                let mut construction__ = None;
                let mut backing__ = None;
                let mut colour_order__ = None;
                let mut lettering__ = None;
                let mut binding_code__ = None;
                let mut finish__ = None;
                let mut quantity__ = None;
                let mut near__ = None;
                let mut destination__ = None;
                let mut service__ = None;
                let mut wanted_date__ = None;
                let mut view__ = None;
                let mut workings__ = None;
                let mut shelf__ = None;
                let mut discount__ = None;
                let mut rush__ = None;
                let mut as_of_date__ = None;
                let mut length__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::DesignCode => {
                            if design_code__.is_some() {
                                return Err(serde::de::Error::duplicate_field("designCode"));
                            }
                            design_code__ = map_.next_value()?;
                        }
                        GeneratedField::PennantCount => {
                            if pennant_count__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("pennantCount"),
                                );
                            }
                            pennant_count__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::GapMm => {
                            if gap_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("gapMm"));
                            }
                            gap_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::TailMm => {
                            if tail_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("tailMm"));
                            }
                            tail_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::Fit => {
                            if fit__.is_some() {
                                return Err(serde::de::Error::duplicate_field("fit"));
                            }
                            fit__ = map_.next_value()?;
                        }
                        GeneratedField::Pennant => {
                            if pennant__.is_some() {
                                return Err(serde::de::Error::duplicate_field("pennant"));
                            }
                            pennant__ = map_.next_value()?;
                        }
                        GeneratedField::Construction => {
                            if construction__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("construction"),
                                );
                            }
                            construction__ = map_
                                .next_value::<::std::option::Option<Construction>>()?
                                .map(|x| x as i32);
                        }
                        GeneratedField::Backing => {
                            if backing__.is_some() {
                                return Err(serde::de::Error::duplicate_field("backing"));
                            }
                            backing__ = map_.next_value()?;
                        }
                        GeneratedField::ColourOrder => {
                            if colour_order__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("colourOrder"),
                                );
                            }
                            colour_order__ = map_.next_value()?;
                        }
                        GeneratedField::Lettering => {
                            if lettering__.is_some() {
                                return Err(serde::de::Error::duplicate_field("lettering"));
                            }
                            lettering__ = map_.next_value()?;
                        }
                        GeneratedField::BindingCode => {
                            if binding_code__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("bindingCode"),
                                );
                            }
                            binding_code__ = map_.next_value()?;
                        }
                        GeneratedField::Finish => {
                            if finish__.is_some() {
                                return Err(serde::de::Error::duplicate_field("finish"));
                            }
                            finish__ = map_.next_value()?;
                        }
                        GeneratedField::Quantity => {
                            if quantity__.is_some() {
                                return Err(serde::de::Error::duplicate_field("quantity"));
                            }
                            quantity__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::Near => {
                            if near__.is_some() {
                                return Err(serde::de::Error::duplicate_field("near"));
                            }
                            near__ = map_.next_value()?;
                        }
                        GeneratedField::Destination => {
                            if destination__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("destination"),
                                );
                            }
                            destination__ = map_.next_value()?;
                        }
                        GeneratedField::Service => {
                            if service__.is_some() {
                                return Err(serde::de::Error::duplicate_field("service"));
                            }
                            service__ = map_.next_value()?;
                        }
                        GeneratedField::WantedDate => {
                            if wanted_date__.is_some() {
                                return Err(serde::de::Error::duplicate_field("wantedDate"));
                            }
                            wanted_date__ = map_.next_value()?;
                        }
                        GeneratedField::View => {
                            if view__.is_some() {
                                return Err(serde::de::Error::duplicate_field("view"));
                            }
                            view__ = map_
                                .next_value::<::std::option::Option<View>>()?
                                .map(|x| x as i32);
                        }
                        GeneratedField::Workings => {
                            if workings__.is_some() {
                                return Err(serde::de::Error::duplicate_field("workings"));
                            }
                            workings__ = map_.next_value()?;
                        }
                        GeneratedField::Shelf => {
                            if shelf__.is_some() {
                                return Err(serde::de::Error::duplicate_field("shelf"));
                            }
                            shelf__ = map_.next_value()?;
                        }
                        GeneratedField::Discount => {
                            if discount__.is_some() {
                                return Err(serde::de::Error::duplicate_field("discount"));
                            }
                            discount__ = map_.next_value()?;
                        }
                        GeneratedField::Rush => {
                            if rush__.is_some() {
                                return Err(serde::de::Error::duplicate_field("rush"));
                            }
                            rush__ = map_.next_value()?;
                        }
                        GeneratedField::AsOfDate => {
                            if as_of_date__.is_some() {
                                return Err(serde::de::Error::duplicate_field("asOfDate"));
                            }
                            as_of_date__ = map_.next_value()?;
                        }
                        GeneratedField::FlaggedMm => {
                            if length__.is_some() {
                                return Err(serde::de::Error::duplicate_field("flaggedMm"));
                            }
                            length__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| enquiry::Length::FlaggedMm(x.0));
                        }
                        GeneratedField::OverallMm => {
                            if length__.is_some() {
                                return Err(serde::de::Error::duplicate_field("overallMm"));
                            }
                            length__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| enquiry::Length::OverallMm(x.0));
                        }
                        GeneratedField::BindingMm => {
                            if length__.is_some() {
                                return Err(serde::de::Error::duplicate_field("bindingMm"));
                            }
                            length__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| enquiry::Length::BindingMm(x.0));
                        }
                        GeneratedField::Hang => {
                            if length__.is_some() {
                                return Err(serde::de::Error::duplicate_field("hang"));
                            }
                            length__ = map_
                                .next_value::<::std::option::Option<_>>()?
                                .map(enquiry::Length::Hang);
                        }
                    }
                }
                Ok(Enquiry {
                    design_code: design_code__,
                    pennant_count: pennant_count__,
                    gap_mm: gap_mm__,
                    tail_mm: tail_mm__,
                    fit: fit__,
                    pennant: pennant__,
                    construction: construction__,
                    backing: backing__,
                    colour_order: colour_order__,
                    lettering: lettering__,
                    binding_code: binding_code__,
                    finish: finish__,
                    quantity: quantity__,
                    near: near__,
                    destination: destination__,
                    service: service__,
                    wanted_date: wanted_date__,
                    view: view__,
                    workings: workings__,
                    shelf: shelf__,
                    discount: discount__,
                    rush: rush__,
                    as_of_date: as_of_date__,
                    length: length__,
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Enquiry", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Fabric {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Fabric", len)?;
        if true {
            struct_ser.serialize_field("code", &self.code)?;
        }
        if true {
            struct_ser.serialize_field("name", &self.name)?;
        }
        if true {
            struct_ser.serialize_field("swatch", &self.swatch)?;
        }
        if true {
            struct_ser.serialize_field("oneWay", &self.one_way)?;
        }
        if true {
            struct_ser.serialize_field("usableWidthMm", &self.usable_width_mm)?;
        }
        if true {
            struct_ser.serialize_field("fibre", &self.fibre)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Fabric {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "code",
            "name",
            "swatch",
            "one_way",
            "oneWay",
            "usable_width_mm",
            "usableWidthMm",
            "fibre",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Code,
            Name,
            Swatch,
            OneWay,
            UsableWidthMm,
            Fibre,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "code" => Ok(GeneratedField::Code),
                            "name" => Ok(GeneratedField::Name),
                            "swatch" => Ok(GeneratedField::Swatch),
                            "oneWay" | "one_way" => Ok(GeneratedField::OneWay),
                            "usableWidthMm" | "usable_width_mm" => {
                                Ok(GeneratedField::UsableWidthMm)
                            }
                            "fibre" => Ok(GeneratedField::Fibre),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Fabric;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Fabric")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Fabric, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut code__ = None;
                let mut name__ = None;
                let mut swatch__ = None;
                let mut one_way__ = None;
                let mut usable_width_mm__ = None;
                let mut fibre__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Code => {
                            if code__.is_some() {
                                return Err(serde::de::Error::duplicate_field("code"));
                            }
                            code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Name => {
                            if name__.is_some() {
                                return Err(serde::de::Error::duplicate_field("name"));
                            }
                            name__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Swatch => {
                            if swatch__.is_some() {
                                return Err(serde::de::Error::duplicate_field("swatch"));
                            }
                            swatch__ = Some(map_.next_value()?);
                        }
                        GeneratedField::OneWay => {
                            if one_way__.is_some() {
                                return Err(serde::de::Error::duplicate_field("oneWay"));
                            }
                            one_way__ = Some(map_.next_value()?);
                        }
                        GeneratedField::UsableWidthMm => {
                            if usable_width_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("usableWidthMm"),
                                );
                            }
                            usable_width_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Fibre => {
                            if fibre__.is_some() {
                                return Err(serde::de::Error::duplicate_field("fibre"));
                            }
                            fibre__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Fabric {
                    code: code__.unwrap_or_default(),
                    name: name__.unwrap_or_default(),
                    swatch: swatch__.unwrap_or_default(),
                    one_way: one_way__.unwrap_or_default(),
                    usable_width_mm: usable_width_mm__.unwrap_or_default(),
                    fibre: fibre__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Fabric", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for FabricUse {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.FabricUse", len)?;
        if true {
            struct_ser.serialize_field("fabricCode", &self.fabric_code)?;
        }
        if true {
            struct_ser.serialize_field("pieceCount", &self.piece_count)?;
        }
        if true {
            struct_ser.serialize_field("cutWidthMm", &self.cut_width_mm)?;
        }
        if true {
            struct_ser.serialize_field("cutDropMm", &self.cut_drop_mm)?;
        }
        if true {
            struct_ser.serialize_field("usedMm", &self.used_mm)?;
        }
        if true {
            struct_ser.serialize_field("chargedMm", &self.charged_mm)?;
        }
        if true {
            struct_ser.serialize_field("boundMm", &self.bound_mm)?;
        }
        if let Some(v) = self.plan.as_ref() {
            struct_ser.serialize_field("plan", v)?;
        }
        if true {
            struct_ser.serialize_field("spareCount", &self.spare_count)?;
        }
        if true {
            let v = ClothRole::try_from(self.role)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.role),
                ))?;
            struct_ser.serialize_field("role", &v)?;
        }
        if let Some(v) = self.lay.as_ref() {
            struct_ser.serialize_field("lay", v)?;
        }
        if let Some(v) = self.bought.as_ref() {
            struct_ser.serialize_field("bought", v)?;
        }
        if true {
            struct_ser.serialize_field("oneMoreMm", &self.one_more_mm)?;
        }
        if true {
            struct_ser.serialize_field("oneFewerMm", &self.one_fewer_mm)?;
        }
        if true {
            let v = Shape::try_from(self.cut_shape)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.cut_shape),
                ))?;
            struct_ser.serialize_field("cutShape", &v)?;
        }
        if true {
            struct_ser.serialize_field("cutDetailMm", &self.cut_detail_mm)?;
        }
        if true {
            struct_ser.serialize_field("cutFlatMm", &self.cut_flat_mm)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for FabricUse {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "fabric_code",
            "fabricCode",
            "piece_count",
            "pieceCount",
            "cut_width_mm",
            "cutWidthMm",
            "cut_drop_mm",
            "cutDropMm",
            "used_mm",
            "usedMm",
            "charged_mm",
            "chargedMm",
            "bound_mm",
            "boundMm",
            "plan",
            "spare_count",
            "spareCount",
            "role",
            "lay",
            "bought",
            "one_more_mm",
            "oneMoreMm",
            "one_fewer_mm",
            "oneFewerMm",
            "cut_shape",
            "cutShape",
            "cut_detail_mm",
            "cutDetailMm",
            "cut_flat_mm",
            "cutFlatMm",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            FabricCode,
            PieceCount,
            CutWidthMm,
            CutDropMm,
            UsedMm,
            ChargedMm,
            BoundMm,
            Plan,
            SpareCount,
            Role,
            Lay,
            Bought,
            OneMoreMm,
            OneFewerMm,
            CutShape,
            CutDetailMm,
            CutFlatMm,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "fabricCode" | "fabric_code" => {
                                Ok(GeneratedField::FabricCode)
                            }
                            "pieceCount" | "piece_count" => {
                                Ok(GeneratedField::PieceCount)
                            }
                            "cutWidthMm" | "cut_width_mm" => {
                                Ok(GeneratedField::CutWidthMm)
                            }
                            "cutDropMm" | "cut_drop_mm" => Ok(GeneratedField::CutDropMm),
                            "usedMm" | "used_mm" => Ok(GeneratedField::UsedMm),
                            "chargedMm" | "charged_mm" => Ok(GeneratedField::ChargedMm),
                            "boundMm" | "bound_mm" => Ok(GeneratedField::BoundMm),
                            "plan" => Ok(GeneratedField::Plan),
                            "spareCount" | "spare_count" => {
                                Ok(GeneratedField::SpareCount)
                            }
                            "role" => Ok(GeneratedField::Role),
                            "lay" => Ok(GeneratedField::Lay),
                            "bought" => Ok(GeneratedField::Bought),
                            "oneMoreMm" | "one_more_mm" => Ok(GeneratedField::OneMoreMm),
                            "oneFewerMm" | "one_fewer_mm" => {
                                Ok(GeneratedField::OneFewerMm)
                            }
                            "cutShape" | "cut_shape" => Ok(GeneratedField::CutShape),
                            "cutDetailMm" | "cut_detail_mm" => {
                                Ok(GeneratedField::CutDetailMm)
                            }
                            "cutFlatMm" | "cut_flat_mm" => Ok(GeneratedField::CutFlatMm),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = FabricUse;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.FabricUse")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<FabricUse, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut fabric_code__ = None;
                let mut piece_count__ = None;
                let mut cut_width_mm__ = None;
                let mut cut_drop_mm__ = None;
                let mut used_mm__ = None;
                let mut charged_mm__ = None;
                let mut bound_mm__ = None;
                let mut plan__ = None;
                let mut spare_count__ = None;
                let mut role__ = None;
                let mut lay__ = None;
                let mut bought__ = None;
                let mut one_more_mm__ = None;
                let mut one_fewer_mm__ = None;
                let mut cut_shape__ = None;
                let mut cut_detail_mm__ = None;
                let mut cut_flat_mm__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::FabricCode => {
                            if fabric_code__.is_some() {
                                return Err(serde::de::Error::duplicate_field("fabricCode"));
                            }
                            fabric_code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::PieceCount => {
                            if piece_count__.is_some() {
                                return Err(serde::de::Error::duplicate_field("pieceCount"));
                            }
                            piece_count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::CutWidthMm => {
                            if cut_width_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("cutWidthMm"));
                            }
                            cut_width_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::CutDropMm => {
                            if cut_drop_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("cutDropMm"));
                            }
                            cut_drop_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::UsedMm => {
                            if used_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("usedMm"));
                            }
                            used_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::ChargedMm => {
                            if charged_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("chargedMm"));
                            }
                            charged_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::BoundMm => {
                            if bound_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("boundMm"));
                            }
                            bound_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Plan => {
                            if plan__.is_some() {
                                return Err(serde::de::Error::duplicate_field("plan"));
                            }
                            plan__ = map_.next_value()?;
                        }
                        GeneratedField::SpareCount => {
                            if spare_count__.is_some() {
                                return Err(serde::de::Error::duplicate_field("spareCount"));
                            }
                            spare_count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Role => {
                            if role__.is_some() {
                                return Err(serde::de::Error::duplicate_field("role"));
                            }
                            role__ = Some(map_.next_value::<ClothRole>()? as i32);
                        }
                        GeneratedField::Lay => {
                            if lay__.is_some() {
                                return Err(serde::de::Error::duplicate_field("lay"));
                            }
                            lay__ = map_.next_value()?;
                        }
                        GeneratedField::Bought => {
                            if bought__.is_some() {
                                return Err(serde::de::Error::duplicate_field("bought"));
                            }
                            bought__ = map_.next_value()?;
                        }
                        GeneratedField::OneMoreMm => {
                            if one_more_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("oneMoreMm"));
                            }
                            one_more_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::OneFewerMm => {
                            if one_fewer_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("oneFewerMm"));
                            }
                            one_fewer_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::CutShape => {
                            if cut_shape__.is_some() {
                                return Err(serde::de::Error::duplicate_field("cutShape"));
                            }
                            cut_shape__ = Some(map_.next_value::<Shape>()? as i32);
                        }
                        GeneratedField::CutDetailMm => {
                            if cut_detail_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("cutDetailMm"),
                                );
                            }
                            cut_detail_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::CutFlatMm => {
                            if cut_flat_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("cutFlatMm"));
                            }
                            cut_flat_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                    }
                }
                Ok(FabricUse {
                    fabric_code: fabric_code__.unwrap_or_default(),
                    piece_count: piece_count__.unwrap_or_default(),
                    cut_width_mm: cut_width_mm__.unwrap_or_default(),
                    cut_drop_mm: cut_drop_mm__.unwrap_or_default(),
                    used_mm: used_mm__.unwrap_or_default(),
                    charged_mm: charged_mm__.unwrap_or_default(),
                    bound_mm: bound_mm__.unwrap_or_default(),
                    plan: plan__,
                    spare_count: spare_count__.unwrap_or_default(),
                    role: role__.unwrap_or_default(),
                    lay: lay__,
                    bought: bought__,
                    one_more_mm: one_more_mm__.unwrap_or_default(),
                    one_fewer_mm: one_fewer_mm__.unwrap_or_default(),
                    cut_shape: cut_shape__.unwrap_or_default(),
                    cut_detail_mm: cut_detail_mm__.unwrap_or_default(),
                    cut_flat_mm: cut_flat_mm__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.FabricUse", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for FieldViolation {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.FieldViolation", len)?;
        if true {
            struct_ser.serialize_field("field", &self.field)?;
        }
        if true {
            struct_ser.serialize_field("reason", &self.reason)?;
        }
        if true {
            struct_ser.serialize_field("message", &self.message)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for FieldViolation {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["field", "reason", "message"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Field,
            Reason,
            Message,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "field" => Ok(GeneratedField::Field),
                            "reason" => Ok(GeneratedField::Reason),
                            "message" => Ok(GeneratedField::Message),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = FieldViolation;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.FieldViolation")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<FieldViolation, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut field__ = None;
                let mut reason__ = None;
                let mut message__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Field => {
                            if field__.is_some() {
                                return Err(serde::de::Error::duplicate_field("field"));
                            }
                            field__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Reason => {
                            if reason__.is_some() {
                                return Err(serde::de::Error::duplicate_field("reason"));
                            }
                            reason__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Message => {
                            if message__.is_some() {
                                return Err(serde::de::Error::duplicate_field("message"));
                            }
                            message__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(FieldViolation {
                    field: field__.unwrap_or_default(),
                    reason: reason__.unwrap_or_default(),
                    message: message__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.FieldViolation", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for FigureOrigin {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "FIGURE_ORIGIN_UNSPECIFIED",
            Self::Read => "FIGURE_ORIGIN_READ",
            Self::Remembered => "FIGURE_ORIGIN_REMEMBERED",
            Self::Shop => "FIGURE_ORIGIN_SHOP",
            Self::None => "FIGURE_ORIGIN_NONE",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for FigureOrigin {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "FIGURE_ORIGIN_UNSPECIFIED",
            "FIGURE_ORIGIN_READ",
            "FIGURE_ORIGIN_REMEMBERED",
            "FIGURE_ORIGIN_SHOP",
            "FIGURE_ORIGIN_NONE",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = FigureOrigin;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "FIGURE_ORIGIN_UNSPECIFIED" => Ok(FigureOrigin::Unspecified),
                    "FIGURE_ORIGIN_READ" => Ok(FigureOrigin::Read),
                    "FIGURE_ORIGIN_REMEMBERED" => Ok(FigureOrigin::Remembered),
                    "FIGURE_ORIGIN_SHOP" => Ok(FigureOrigin::Shop),
                    "FIGURE_ORIGIN_NONE" => Ok(FigureOrigin::None),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for Finding {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Finding", len)?;
        if true {
            struct_ser.serialize_field("ruleId", &self.rule_id)?;
        }
        if true {
            let v = Jurisdiction::try_from(self.jurisdiction)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.jurisdiction),
                ))?;
            struct_ser.serialize_field("jurisdiction", &v)?;
        }
        if true {
            let v = Outcome::try_from(self.outcome)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.outcome),
                ))?;
            struct_ser.serialize_field("outcome", &v)?;
        }
        if true {
            struct_ser.serialize_field("measured", &self.measured)?;
        }
        if true {
            struct_ser.serialize_field("limit", &self.limit)?;
        }
        if true {
            struct_ser.serialize_field("source", &self.source)?;
        }
        if true {
            struct_ser.serialize_field("remedy", &self.remedy)?;
        }
        if true {
            struct_ser.serialize_field("text", &self.text)?;
        }
        if true {
            let v = RuleBasis::try_from(self.basis)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.basis),
                ))?;
            struct_ser.serialize_field("basis", &v)?;
        }
        if true {
            let v = FigureOrigin::try_from(self.figure)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.figure),
                ))?;
            struct_ser.serialize_field("figure", &v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Finding {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "rule_id",
            "ruleId",
            "jurisdiction",
            "outcome",
            "measured",
            "limit",
            "source",
            "remedy",
            "text",
            "basis",
            "figure",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            RuleId,
            Jurisdiction,
            Outcome,
            Measured,
            Limit,
            Source,
            Remedy,
            Text,
            Basis,
            Figure,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "ruleId" | "rule_id" => Ok(GeneratedField::RuleId),
                            "jurisdiction" => Ok(GeneratedField::Jurisdiction),
                            "outcome" => Ok(GeneratedField::Outcome),
                            "measured" => Ok(GeneratedField::Measured),
                            "limit" => Ok(GeneratedField::Limit),
                            "source" => Ok(GeneratedField::Source),
                            "remedy" => Ok(GeneratedField::Remedy),
                            "text" => Ok(GeneratedField::Text),
                            "basis" => Ok(GeneratedField::Basis),
                            "figure" => Ok(GeneratedField::Figure),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Finding;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Finding")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Finding, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut rule_id__ = None;
                let mut jurisdiction__ = None;
                let mut outcome__ = None;
                let mut measured__ = None;
                let mut limit__ = None;
                let mut source__ = None;
                let mut remedy__ = None;
                let mut text__ = None;
                let mut basis__ = None;
                let mut figure__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::RuleId => {
                            if rule_id__.is_some() {
                                return Err(serde::de::Error::duplicate_field("ruleId"));
                            }
                            rule_id__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Jurisdiction => {
                            if jurisdiction__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("jurisdiction"),
                                );
                            }
                            jurisdiction__ = Some(
                                map_.next_value::<Jurisdiction>()? as i32,
                            );
                        }
                        GeneratedField::Outcome => {
                            if outcome__.is_some() {
                                return Err(serde::de::Error::duplicate_field("outcome"));
                            }
                            outcome__ = Some(map_.next_value::<Outcome>()? as i32);
                        }
                        GeneratedField::Measured => {
                            if measured__.is_some() {
                                return Err(serde::de::Error::duplicate_field("measured"));
                            }
                            measured__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Limit => {
                            if limit__.is_some() {
                                return Err(serde::de::Error::duplicate_field("limit"));
                            }
                            limit__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Source => {
                            if source__.is_some() {
                                return Err(serde::de::Error::duplicate_field("source"));
                            }
                            source__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Remedy => {
                            if remedy__.is_some() {
                                return Err(serde::de::Error::duplicate_field("remedy"));
                            }
                            remedy__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Text => {
                            if text__.is_some() {
                                return Err(serde::de::Error::duplicate_field("text"));
                            }
                            text__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Basis => {
                            if basis__.is_some() {
                                return Err(serde::de::Error::duplicate_field("basis"));
                            }
                            basis__ = Some(map_.next_value::<RuleBasis>()? as i32);
                        }
                        GeneratedField::Figure => {
                            if figure__.is_some() {
                                return Err(serde::de::Error::duplicate_field("figure"));
                            }
                            figure__ = Some(map_.next_value::<FigureOrigin>()? as i32);
                        }
                    }
                }
                Ok(Finding {
                    rule_id: rule_id__.unwrap_or_default(),
                    jurisdiction: jurisdiction__.unwrap_or_default(),
                    outcome: outcome__.unwrap_or_default(),
                    measured: measured__.unwrap_or_default(),
                    limit: limit__.unwrap_or_default(),
                    source: source__.unwrap_or_default(),
                    remedy: remedy__.unwrap_or_default(),
                    text: text__.unwrap_or_default(),
                    basis: basis__.unwrap_or_default(),
                    figure: figure__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Finding", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Finish {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Finish", len)?;
        if true {
            struct_ser.serialize_field("ends", &self.ends)?;
        }
        if true {
            struct_ser.serialize_field("trimmings", &self.trimmings)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Finish {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["ends", "trimmings"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Ends,
            Trimmings,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "ends" => Ok(GeneratedField::Ends),
                            "trimmings" => Ok(GeneratedField::Trimmings),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Finish;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Finish")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Finish, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut ends__ = None;
                let mut trimmings__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Ends => {
                            if ends__.is_some() {
                                return Err(serde::de::Error::duplicate_field("ends"));
                            }
                            ends__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Trimmings => {
                            if trimmings__.is_some() {
                                return Err(serde::de::Error::duplicate_field("trimmings"));
                            }
                            trimmings__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Finish {
                    ends: ends__.unwrap_or_default(),
                    trimmings: trimmings__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Finish", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Fit {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Fit", len)?;
        if let Some(v) = self.leftover.as_ref() {
            let v = Leftover::try_from(*v)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", * v),
                ))?;
            struct_ser.serialize_field("leftover", &v)?;
        }
        if let Some(v) = self.parity.as_ref() {
            let v = Parity::try_from(*v)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", * v),
                ))?;
            struct_ser.serialize_field("parity", &v)?;
        }
        if let Some(v) = self.min_gap_mm.as_ref() {
            struct_ser.serialize_field("minGapMm", v)?;
        }
        if let Some(v) = self.max_gap_mm.as_ref() {
            struct_ser.serialize_field("maxGapMm", v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Fit {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "leftover",
            "parity",
            "min_gap_mm",
            "minGapMm",
            "max_gap_mm",
            "maxGapMm",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Leftover,
            Parity,
            MinGapMm,
            MaxGapMm,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "leftover" => Ok(GeneratedField::Leftover),
                            "parity" => Ok(GeneratedField::Parity),
                            "minGapMm" | "min_gap_mm" => Ok(GeneratedField::MinGapMm),
                            "maxGapMm" | "max_gap_mm" => Ok(GeneratedField::MaxGapMm),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Fit;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Fit")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Fit, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut leftover__ = None;
                let mut parity__ = None;
                let mut min_gap_mm__ = None;
                let mut max_gap_mm__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Leftover => {
                            if leftover__.is_some() {
                                return Err(serde::de::Error::duplicate_field("leftover"));
                            }
                            leftover__ = map_
                                .next_value::<::std::option::Option<Leftover>>()?
                                .map(|x| x as i32);
                        }
                        GeneratedField::Parity => {
                            if parity__.is_some() {
                                return Err(serde::de::Error::duplicate_field("parity"));
                            }
                            parity__ = map_
                                .next_value::<::std::option::Option<Parity>>()?
                                .map(|x| x as i32);
                        }
                        GeneratedField::MinGapMm => {
                            if min_gap_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("minGapMm"));
                            }
                            min_gap_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::MaxGapMm => {
                            if max_gap_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("maxGapMm"));
                            }
                            max_gap_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                    }
                }
                Ok(Fit {
                    leftover: leftover__,
                    parity: parity__,
                    min_gap_mm: min_gap_mm__,
                    max_gap_mm: max_gap_mm__,
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Fit", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for GetCatalogueRequest {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let len = 0;
        let struct_ser = serializer
            .serialize_struct("pennantry.v1.GetCatalogueRequest", len)?;
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for GetCatalogueRequest {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {}
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        Err(serde::de::Error::unknown_field(value, FIELDS))
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = GetCatalogueRequest;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.GetCatalogueRequest")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<GetCatalogueRequest, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                while map_.next_key::<GeneratedField>()?.is_some() {
                    let _ = map_.next_value::<serde::de::IgnoredAny>()?;
                }
                Ok(GetCatalogueRequest {})
            }
        }
        deserializer
            .deserialize_struct(
                "pennantry.v1.GetCatalogueRequest",
                FIELDS,
                GeneratedVisitor,
            )
    }
}
impl serde::Serialize for GetCatalogueResponse {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.GetCatalogueResponse", len)?;
        if let Some(v) = self.catalogue.as_ref() {
            struct_ser.serialize_field("catalogue", v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for GetCatalogueResponse {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["catalogue"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Catalogue,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "catalogue" => Ok(GeneratedField::Catalogue),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = GetCatalogueResponse;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.GetCatalogueResponse")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<GetCatalogueResponse, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut catalogue__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Catalogue => {
                            if catalogue__.is_some() {
                                return Err(serde::de::Error::duplicate_field("catalogue"));
                            }
                            catalogue__ = map_.next_value()?;
                        }
                    }
                }
                Ok(GetCatalogueResponse {
                    catalogue: catalogue__,
                })
            }
        }
        deserializer
            .deserialize_struct(
                "pennantry.v1.GetCatalogueResponse",
                FIELDS,
                GeneratedVisitor,
            )
    }
}
impl serde::Serialize for Hang {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Hang", len)?;
        if true {
            struct_ser.serialize_field("spanMm", &self.span_mm)?;
        }
        if let Some(v) = self.dip_mm.as_ref() {
            struct_ser.serialize_field("dipMm", v)?;
        }
        if let Some(v) = self.swag_count.as_ref() {
            struct_ser.serialize_field("swagCount", v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Hang {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "span_mm",
            "spanMm",
            "dip_mm",
            "dipMm",
            "swag_count",
            "swagCount",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            SpanMm,
            DipMm,
            SwagCount,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "spanMm" | "span_mm" => Ok(GeneratedField::SpanMm),
                            "dipMm" | "dip_mm" => Ok(GeneratedField::DipMm),
                            "swagCount" | "swag_count" => Ok(GeneratedField::SwagCount),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Hang;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Hang")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Hang, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut span_mm__ = None;
                let mut dip_mm__ = None;
                let mut swag_count__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::SpanMm => {
                            if span_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("spanMm"));
                            }
                            span_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::DipMm => {
                            if dip_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("dipMm"));
                            }
                            dip_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::SwagCount => {
                            if swag_count__.is_some() {
                                return Err(serde::de::Error::duplicate_field("swagCount"));
                            }
                            swag_count__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                    }
                }
                Ok(Hang {
                    span_mm: span_mm__.unwrap_or_default(),
                    dip_mm: dip_mm__,
                    swag_count: swag_count__,
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Hang", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for HangLayout {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.HangLayout", len)?;
        if true {
            struct_ser.serialize_field("curveMm", &self.curve_mm)?;
        }
        if true {
            struct_ser.serialize_field("knotMm", &self.knot_mm)?;
        }
        if true {
            struct_ser.serialize_field("lowestTipMm", &self.lowest_tip_mm)?;
        }
        if true {
            struct_ser.serialize_field("hooks", &self.hooks)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for HangLayout {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "curve_mm",
            "curveMm",
            "knot_mm",
            "knotMm",
            "lowest_tip_mm",
            "lowestTipMm",
            "hooks",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            CurveMm,
            KnotMm,
            LowestTipMm,
            Hooks,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "curveMm" | "curve_mm" => Ok(GeneratedField::CurveMm),
                            "knotMm" | "knot_mm" => Ok(GeneratedField::KnotMm),
                            "lowestTipMm" | "lowest_tip_mm" => {
                                Ok(GeneratedField::LowestTipMm)
                            }
                            "hooks" => Ok(GeneratedField::Hooks),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = HangLayout;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.HangLayout")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<HangLayout, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut curve_mm__ = None;
                let mut knot_mm__ = None;
                let mut lowest_tip_mm__ = None;
                let mut hooks__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::CurveMm => {
                            if curve_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("curveMm"));
                            }
                            curve_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::KnotMm => {
                            if knot_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("knotMm"));
                            }
                            knot_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::LowestTipMm => {
                            if lowest_tip_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("lowestTipMm"),
                                );
                            }
                            lowest_tip_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Hooks => {
                            if hooks__.is_some() {
                                return Err(serde::de::Error::duplicate_field("hooks"));
                            }
                            hooks__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(HangLayout {
                    curve_mm: curve_mm__.unwrap_or_default(),
                    knot_mm: knot_mm__.unwrap_or_default(),
                    lowest_tip_mm: lowest_tip_mm__.unwrap_or_default(),
                    hooks: hooks__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.HangLayout", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Hook {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Hook", len)?;
        if true {
            struct_ser.serialize_field("atMm", &self.at_mm)?;
        }
        if true {
            struct_ser.serialize_field("inGap", &self.in_gap)?;
        }
        if true {
            struct_ser.serialize_field("shiftMm", &self.shift_mm)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Hook {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "at_mm",
            "atMm",
            "in_gap",
            "inGap",
            "shift_mm",
            "shiftMm",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            AtMm,
            InGap,
            ShiftMm,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "atMm" | "at_mm" => Ok(GeneratedField::AtMm),
                            "inGap" | "in_gap" => Ok(GeneratedField::InGap),
                            "shiftMm" | "shift_mm" => Ok(GeneratedField::ShiftMm),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Hook;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Hook")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Hook, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut at_mm__ = None;
                let mut in_gap__ = None;
                let mut shift_mm__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::AtMm => {
                            if at_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("atMm"));
                            }
                            at_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::InGap => {
                            if in_gap__.is_some() {
                                return Err(serde::de::Error::duplicate_field("inGap"));
                            }
                            in_gap__ = Some(map_.next_value()?);
                        }
                        GeneratedField::ShiftMm => {
                            if shift_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("shiftMm"));
                            }
                            shift_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                    }
                }
                Ok(Hook {
                    at_mm: at_mm__.unwrap_or_default(),
                    in_gap: in_gap__.unwrap_or_default(),
                    shift_mm: shift_mm__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Hook", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Jurisdiction {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "JURISDICTION_UNSPECIFIED",
            Self::Eu => "JURISDICTION_EU",
            Self::Gb => "JURISDICTION_GB",
            Self::Us => "JURISDICTION_US",
            Self::Ca => "JURISDICTION_CA",
            Self::Au => "JURISDICTION_AU",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for Jurisdiction {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "JURISDICTION_UNSPECIFIED",
            "JURISDICTION_EU",
            "JURISDICTION_GB",
            "JURISDICTION_US",
            "JURISDICTION_CA",
            "JURISDICTION_AU",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = Jurisdiction;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "JURISDICTION_UNSPECIFIED" => Ok(Jurisdiction::Unspecified),
                    "JURISDICTION_EU" => Ok(Jurisdiction::Eu),
                    "JURISDICTION_GB" => Ok(Jurisdiction::Gb),
                    "JURISDICTION_US" => Ok(Jurisdiction::Us),
                    "JURISDICTION_CA" => Ok(Jurisdiction::Ca),
                    "JURISDICTION_AU" => Ok(Jurisdiction::Au),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for Labour {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Labour", len)?;
        if true {
            struct_ser.serialize_field("minutes", &self.minutes)?;
        }
        if true {
            struct_ser.serialize_field("operations", &self.operations)?;
        }
        if let Some(v) = self.allowance.as_ref() {
            struct_ser.serialize_field("allowance", v)?;
        }
        if true {
            struct_ser
                .serialize_field(
                    "setUpMinutesPerString",
                    &self.set_up_minutes_per_string,
                )?;
        }
        if true {
            struct_ser
                .serialize_field(
                    "setUpMinutesPerMetre",
                    &self.set_up_minutes_per_metre,
                )?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Labour {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "minutes",
            "operations",
            "allowance",
            "set_up_minutes_per_string",
            "setUpMinutesPerString",
            "set_up_minutes_per_metre",
            "setUpMinutesPerMetre",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Minutes,
            Operations,
            Allowance,
            SetUpMinutesPerString,
            SetUpMinutesPerMetre,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "minutes" => Ok(GeneratedField::Minutes),
                            "operations" => Ok(GeneratedField::Operations),
                            "allowance" => Ok(GeneratedField::Allowance),
                            "setUpMinutesPerString" | "set_up_minutes_per_string" => {
                                Ok(GeneratedField::SetUpMinutesPerString)
                            }
                            "setUpMinutesPerMetre" | "set_up_minutes_per_metre" => {
                                Ok(GeneratedField::SetUpMinutesPerMetre)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Labour;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Labour")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Labour, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut minutes__ = None;
                let mut operations__ = None;
                let mut allowance__ = None;
                let mut set_up_minutes_per_string__ = None;
                let mut set_up_minutes_per_metre__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Minutes => {
                            if minutes__.is_some() {
                                return Err(serde::de::Error::duplicate_field("minutes"));
                            }
                            minutes__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Operations => {
                            if operations__.is_some() {
                                return Err(serde::de::Error::duplicate_field("operations"));
                            }
                            operations__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Allowance => {
                            if allowance__.is_some() {
                                return Err(serde::de::Error::duplicate_field("allowance"));
                            }
                            allowance__ = map_.next_value()?;
                        }
                        GeneratedField::SetUpMinutesPerString => {
                            if set_up_minutes_per_string__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("setUpMinutesPerString"),
                                );
                            }
                            set_up_minutes_per_string__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::SetUpMinutesPerMetre => {
                            if set_up_minutes_per_metre__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("setUpMinutesPerMetre"),
                                );
                            }
                            set_up_minutes_per_metre__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                    }
                }
                Ok(Labour {
                    minutes: minutes__.unwrap_or_default(),
                    operations: operations__.unwrap_or_default(),
                    allowance: allowance__,
                    set_up_minutes_per_string: set_up_minutes_per_string__
                        .unwrap_or_default(),
                    set_up_minutes_per_metre: set_up_minutes_per_metre__
                        .unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Labour", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Lay {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "LAY_UNSPECIFIED",
            Self::Flat => "LAY_FLAT",
            Self::FoldedAcross => "LAY_FOLDED_ACROSS",
            Self::FoldedAlong => "LAY_FOLDED_ALONG",
            Self::Stacked => "LAY_STACKED",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for Lay {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "LAY_UNSPECIFIED",
            "LAY_FLAT",
            "LAY_FOLDED_ACROSS",
            "LAY_FOLDED_ALONG",
            "LAY_STACKED",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = Lay;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "LAY_UNSPECIFIED" => Ok(Lay::Unspecified),
                    "LAY_FLAT" => Ok(Lay::Flat),
                    "LAY_FOLDED_ACROSS" => Ok(Lay::FoldedAcross),
                    "LAY_FOLDED_ALONG" => Ok(Lay::FoldedAlong),
                    "LAY_STACKED" => Ok(Lay::Stacked),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for Layout {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Layout", len)?;
        if true {
            struct_ser.serialize_field("pennantCount", &self.pennant_count)?;
        }
        if true {
            struct_ser.serialize_field("gapMm", &self.gap_mm)?;
        }
        if true {
            struct_ser.serialize_field("flaggedMm", &self.flagged_mm)?;
        }
        if true {
            struct_ser.serialize_field("overallMm", &self.overall_mm)?;
        }
        if true {
            struct_ser.serialize_field("bindingCutMm", &self.binding_cut_mm)?;
        }
        if true {
            struct_ser.serialize_field("tailMm", &self.tail_mm)?;
        }
        if true {
            struct_ser.serialize_field("visibleWidthMm", &self.visible_width_mm)?;
        }
        if true {
            struct_ser.serialize_field("visibleDropMm", &self.visible_drop_mm)?;
        }
        if true {
            struct_ser.serialize_field("visibleGapMm", &self.visible_gap_mm)?;
        }
        if true {
            struct_ser.serialize_field("visibleFlaggedMm", &self.visible_flagged_mm)?;
        }
        if true {
            struct_ser.serialize_field("toleranceMm", &self.tolerance_mm)?;
        }
        if true {
            struct_ser.serialize_field("alternatives", &self.alternatives)?;
        }
        if let Some(v) = self.positions.as_ref() {
            struct_ser.serialize_field("positions", v)?;
        }
        if true {
            struct_ser.serialize_field("topWidthMm", &self.top_width_mm)?;
        }
        if true {
            struct_ser.serialize_field("topDropMm", &self.top_drop_mm)?;
        }
        if let Some(v) = self.hang.as_ref() {
            struct_ser.serialize_field("hang", v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Layout {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "pennant_count",
            "pennantCount",
            "gap_mm",
            "gapMm",
            "flagged_mm",
            "flaggedMm",
            "overall_mm",
            "overallMm",
            "binding_cut_mm",
            "bindingCutMm",
            "tail_mm",
            "tailMm",
            "visible_width_mm",
            "visibleWidthMm",
            "visible_drop_mm",
            "visibleDropMm",
            "visible_gap_mm",
            "visibleGapMm",
            "visible_flagged_mm",
            "visibleFlaggedMm",
            "tolerance_mm",
            "toleranceMm",
            "alternatives",
            "positions",
            "top_width_mm",
            "topWidthMm",
            "top_drop_mm",
            "topDropMm",
            "hang",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            PennantCount,
            GapMm,
            FlaggedMm,
            OverallMm,
            BindingCutMm,
            TailMm,
            VisibleWidthMm,
            VisibleDropMm,
            VisibleGapMm,
            VisibleFlaggedMm,
            ToleranceMm,
            Alternatives,
            Positions,
            TopWidthMm,
            TopDropMm,
            Hang,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "pennantCount" | "pennant_count" => {
                                Ok(GeneratedField::PennantCount)
                            }
                            "gapMm" | "gap_mm" => Ok(GeneratedField::GapMm),
                            "flaggedMm" | "flagged_mm" => Ok(GeneratedField::FlaggedMm),
                            "overallMm" | "overall_mm" => Ok(GeneratedField::OverallMm),
                            "bindingCutMm" | "binding_cut_mm" => {
                                Ok(GeneratedField::BindingCutMm)
                            }
                            "tailMm" | "tail_mm" => Ok(GeneratedField::TailMm),
                            "visibleWidthMm" | "visible_width_mm" => {
                                Ok(GeneratedField::VisibleWidthMm)
                            }
                            "visibleDropMm" | "visible_drop_mm" => {
                                Ok(GeneratedField::VisibleDropMm)
                            }
                            "visibleGapMm" | "visible_gap_mm" => {
                                Ok(GeneratedField::VisibleGapMm)
                            }
                            "visibleFlaggedMm" | "visible_flagged_mm" => {
                                Ok(GeneratedField::VisibleFlaggedMm)
                            }
                            "toleranceMm" | "tolerance_mm" => {
                                Ok(GeneratedField::ToleranceMm)
                            }
                            "alternatives" => Ok(GeneratedField::Alternatives),
                            "positions" => Ok(GeneratedField::Positions),
                            "topWidthMm" | "top_width_mm" => {
                                Ok(GeneratedField::TopWidthMm)
                            }
                            "topDropMm" | "top_drop_mm" => Ok(GeneratedField::TopDropMm),
                            "hang" => Ok(GeneratedField::Hang),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Layout;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Layout")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Layout, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut pennant_count__ = None;
                let mut gap_mm__ = None;
                let mut flagged_mm__ = None;
                let mut overall_mm__ = None;
                let mut binding_cut_mm__ = None;
                let mut tail_mm__ = None;
                let mut visible_width_mm__ = None;
                let mut visible_drop_mm__ = None;
                let mut visible_gap_mm__ = None;
                let mut visible_flagged_mm__ = None;
                let mut tolerance_mm__ = None;
                let mut alternatives__ = None;
                let mut positions__ = None;
                let mut top_width_mm__ = None;
                let mut top_drop_mm__ = None;
                let mut hang__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::PennantCount => {
                            if pennant_count__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("pennantCount"),
                                );
                            }
                            pennant_count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::GapMm => {
                            if gap_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("gapMm"));
                            }
                            gap_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::FlaggedMm => {
                            if flagged_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("flaggedMm"));
                            }
                            flagged_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::OverallMm => {
                            if overall_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("overallMm"));
                            }
                            overall_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::BindingCutMm => {
                            if binding_cut_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("bindingCutMm"),
                                );
                            }
                            binding_cut_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::TailMm => {
                            if tail_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("tailMm"));
                            }
                            tail_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::VisibleWidthMm => {
                            if visible_width_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("visibleWidthMm"),
                                );
                            }
                            visible_width_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::VisibleDropMm => {
                            if visible_drop_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("visibleDropMm"),
                                );
                            }
                            visible_drop_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::VisibleGapMm => {
                            if visible_gap_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("visibleGapMm"),
                                );
                            }
                            visible_gap_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::VisibleFlaggedMm => {
                            if visible_flagged_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("visibleFlaggedMm"),
                                );
                            }
                            visible_flagged_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::ToleranceMm => {
                            if tolerance_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("toleranceMm"),
                                );
                            }
                            tolerance_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Alternatives => {
                            if alternatives__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("alternatives"),
                                );
                            }
                            alternatives__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Positions => {
                            if positions__.is_some() {
                                return Err(serde::de::Error::duplicate_field("positions"));
                            }
                            positions__ = map_.next_value()?;
                        }
                        GeneratedField::TopWidthMm => {
                            if top_width_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("topWidthMm"));
                            }
                            top_width_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::TopDropMm => {
                            if top_drop_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("topDropMm"));
                            }
                            top_drop_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Hang => {
                            if hang__.is_some() {
                                return Err(serde::de::Error::duplicate_field("hang"));
                            }
                            hang__ = map_.next_value()?;
                        }
                    }
                }
                Ok(Layout {
                    pennant_count: pennant_count__.unwrap_or_default(),
                    gap_mm: gap_mm__.unwrap_or_default(),
                    flagged_mm: flagged_mm__.unwrap_or_default(),
                    overall_mm: overall_mm__.unwrap_or_default(),
                    binding_cut_mm: binding_cut_mm__.unwrap_or_default(),
                    tail_mm: tail_mm__.unwrap_or_default(),
                    visible_width_mm: visible_width_mm__.unwrap_or_default(),
                    visible_drop_mm: visible_drop_mm__.unwrap_or_default(),
                    visible_gap_mm: visible_gap_mm__.unwrap_or_default(),
                    visible_flagged_mm: visible_flagged_mm__.unwrap_or_default(),
                    tolerance_mm: tolerance_mm__.unwrap_or_default(),
                    alternatives: alternatives__.unwrap_or_default(),
                    positions: positions__,
                    top_width_mm: top_width_mm__.unwrap_or_default(),
                    top_drop_mm: top_drop_mm__.unwrap_or_default(),
                    hang: hang__,
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Layout", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Leftover {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "LEFTOVER_UNSPECIFIED",
            Self::Tails => "LEFTOVER_TAILS",
            Self::Gaps => "LEFTOVER_GAPS",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for Leftover {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "LEFTOVER_UNSPECIFIED",
            "LEFTOVER_TAILS",
            "LEFTOVER_GAPS",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = Leftover;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "LEFTOVER_UNSPECIFIED" => Ok(Leftover::Unspecified),
                    "LEFTOVER_TAILS" => Ok(Leftover::Tails),
                    "LEFTOVER_GAPS" => Ok(Leftover::Gaps),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for Maker {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Maker", len)?;
        if true {
            struct_ser.serialize_field("name", &self.name)?;
        }
        if true {
            struct_ser.serialize_field("postalAddress", &self.postal_address)?;
        }
        if true {
            struct_ser.serialize_field("electronicAddress", &self.electronic_address)?;
        }
        if true {
            struct_ser.serialize_field("responsiblePerson", &self.responsible_person)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Maker {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "name",
            "postal_address",
            "postalAddress",
            "electronic_address",
            "electronicAddress",
            "responsible_person",
            "responsiblePerson",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Name,
            PostalAddress,
            ElectronicAddress,
            ResponsiblePerson,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "name" => Ok(GeneratedField::Name),
                            "postalAddress" | "postal_address" => {
                                Ok(GeneratedField::PostalAddress)
                            }
                            "electronicAddress" | "electronic_address" => {
                                Ok(GeneratedField::ElectronicAddress)
                            }
                            "responsiblePerson" | "responsible_person" => {
                                Ok(GeneratedField::ResponsiblePerson)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Maker;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Maker")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Maker, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut name__ = None;
                let mut postal_address__ = None;
                let mut electronic_address__ = None;
                let mut responsible_person__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Name => {
                            if name__.is_some() {
                                return Err(serde::de::Error::duplicate_field("name"));
                            }
                            name__ = Some(map_.next_value()?);
                        }
                        GeneratedField::PostalAddress => {
                            if postal_address__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("postalAddress"),
                                );
                            }
                            postal_address__ = Some(map_.next_value()?);
                        }
                        GeneratedField::ElectronicAddress => {
                            if electronic_address__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("electronicAddress"),
                                );
                            }
                            electronic_address__ = Some(map_.next_value()?);
                        }
                        GeneratedField::ResponsiblePerson => {
                            if responsible_person__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("responsiblePerson"),
                                );
                            }
                            responsible_person__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Maker {
                    name: name__.unwrap_or_default(),
                    postal_address: postal_address__.unwrap_or_default(),
                    electronic_address: electronic_address__.unwrap_or_default(),
                    responsible_person: responsible_person__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Maker", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Mark {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Mark", len)?;
        if true {
            struct_ser.serialize_field("leftMm", &self.left_mm)?;
        }
        if true {
            struct_ser.serialize_field("rightMm", &self.right_mm)?;
        }
        if true {
            struct_ser.serialize_field("leftFromEndMm", &self.left_from_end_mm)?;
        }
        if true {
            struct_ser.serialize_field("rightFromEndMm", &self.right_from_end_mm)?;
        }
        if true {
            struct_ser.serialize_field("fabricCode", &self.fabric_code)?;
        }
        if true {
            struct_ser.serialize_field("letter", &self.letter)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Mark {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "left_mm",
            "leftMm",
            "right_mm",
            "rightMm",
            "left_from_end_mm",
            "leftFromEndMm",
            "right_from_end_mm",
            "rightFromEndMm",
            "fabric_code",
            "fabricCode",
            "letter",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            LeftMm,
            RightMm,
            LeftFromEndMm,
            RightFromEndMm,
            FabricCode,
            Letter,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "leftMm" | "left_mm" => Ok(GeneratedField::LeftMm),
                            "rightMm" | "right_mm" => Ok(GeneratedField::RightMm),
                            "leftFromEndMm" | "left_from_end_mm" => {
                                Ok(GeneratedField::LeftFromEndMm)
                            }
                            "rightFromEndMm" | "right_from_end_mm" => {
                                Ok(GeneratedField::RightFromEndMm)
                            }
                            "fabricCode" | "fabric_code" => {
                                Ok(GeneratedField::FabricCode)
                            }
                            "letter" => Ok(GeneratedField::Letter),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Mark;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Mark")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Mark, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut left_mm__ = None;
                let mut right_mm__ = None;
                let mut left_from_end_mm__ = None;
                let mut right_from_end_mm__ = None;
                let mut fabric_code__ = None;
                let mut letter__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::LeftMm => {
                            if left_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("leftMm"));
                            }
                            left_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::RightMm => {
                            if right_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("rightMm"));
                            }
                            right_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::LeftFromEndMm => {
                            if left_from_end_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("leftFromEndMm"),
                                );
                            }
                            left_from_end_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::RightFromEndMm => {
                            if right_from_end_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("rightFromEndMm"),
                                );
                            }
                            right_from_end_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::FabricCode => {
                            if fabric_code__.is_some() {
                                return Err(serde::de::Error::duplicate_field("fabricCode"));
                            }
                            fabric_code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Letter => {
                            if letter__.is_some() {
                                return Err(serde::de::Error::duplicate_field("letter"));
                            }
                            letter__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Mark {
                    left_mm: left_mm__.unwrap_or_default(),
                    right_mm: right_mm__.unwrap_or_default(),
                    left_from_end_mm: left_from_end_mm__.unwrap_or_default(),
                    right_from_end_mm: right_from_end_mm__.unwrap_or_default(),
                    fabric_code: fabric_code__.unwrap_or_default(),
                    letter: letter__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Mark", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for MassPart {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.MassPart", len)?;
        if true {
            struct_ser.serialize_field("code", &self.code)?;
        }
        if true {
            struct_ser.serialize_field("text", &self.text)?;
        }
        if true {
            struct_ser.serialize_field("grams", &self.grams)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for MassPart {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["code", "text", "grams"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Code,
            Text,
            Grams,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "code" => Ok(GeneratedField::Code),
                            "text" => Ok(GeneratedField::Text),
                            "grams" => Ok(GeneratedField::Grams),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = MassPart;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.MassPart")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<MassPart, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut code__ = None;
                let mut text__ = None;
                let mut grams__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Code => {
                            if code__.is_some() {
                                return Err(serde::de::Error::duplicate_field("code"));
                            }
                            code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Text => {
                            if text__.is_some() {
                                return Err(serde::de::Error::duplicate_field("text"));
                            }
                            text__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Grams => {
                            if grams__.is_some() {
                                return Err(serde::de::Error::duplicate_field("grams"));
                            }
                            grams__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                    }
                }
                Ok(MassPart {
                    code: code__.unwrap_or_default(),
                    text: text__.unwrap_or_default(),
                    grams: grams__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.MassPart", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Money {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Money", len)?;
        if true {
            struct_ser.serialize_field("currencyCode", &self.currency_code)?;
        }
        if true {
            #[allow(clippy::needless_borrow)]
            #[allow(clippy::needless_borrows_for_generic_args)]
            struct_ser
                .serialize_field(
                    "minorUnits",
                    ToString::to_string(&self.minor_units).as_str(),
                )?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Money {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "currency_code",
            "currencyCode",
            "minor_units",
            "minorUnits",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            CurrencyCode,
            MinorUnits,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "currencyCode" | "currency_code" => {
                                Ok(GeneratedField::CurrencyCode)
                            }
                            "minorUnits" | "minor_units" => {
                                Ok(GeneratedField::MinorUnits)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Money;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Money")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Money, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut currency_code__ = None;
                let mut minor_units__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::CurrencyCode => {
                            if currency_code__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("currencyCode"),
                                );
                            }
                            currency_code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::MinorUnits => {
                            if minor_units__.is_some() {
                                return Err(serde::de::Error::duplicate_field("minorUnits"));
                            }
                            minor_units__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                    }
                }
                Ok(Money {
                    currency_code: currency_code__.unwrap_or_default(),
                    minor_units: minor_units__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Money", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Near {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Near", len)?;
        if let Some(v) = self.who.as_ref() {
            let v = Who::try_from(*v)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", * v),
                ))?;
            struct_ser.serialize_field("who", &v)?;
        }
        if let Some(v) = self.youngest_months.as_ref() {
            struct_ser.serialize_field("youngestMonths", v)?;
        }
        if let Some(v) = self.place.as_ref() {
            let v = Place::try_from(*v)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", * v),
                ))?;
            struct_ser.serialize_field("place", &v)?;
        }
        if let Some(v) = self.fixing_height_mm.as_ref() {
            struct_ser.serialize_field("fixingHeightMm", v)?;
        }
        if let Some(v) = self.fixings.as_ref() {
            struct_ser.serialize_field("fixings", v)?;
        }
        if let Some(v) = self.span_mm.as_ref() {
            struct_ser.serialize_field("spanMm", v)?;
        }
        if let Some(v) = self.cot_distance_mm.as_ref() {
            struct_ser.serialize_field("cotDistanceMm", v)?;
        }
        if true {
            let v = self
                .jurisdictions
                .iter()
                .cloned()
                .map(|v| {
                    Jurisdiction::try_from(v)
                        .map_err(|_| serde::ser::Error::custom(
                            format!("Invalid variant {}", v),
                        ))
                })
                .collect::<std::result::Result<Vec<_>, _>>()?;
            struct_ser.serialize_field("jurisdictions", &v)?;
        }
        if let Some(v) = self.wall_width_mm.as_ref() {
            struct_ser.serialize_field("wallWidthMm", v)?;
        }
        if let Some(v) = self.wall_height_mm.as_ref() {
            struct_ser.serialize_field("wallHeightMm", v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Near {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "who",
            "youngest_months",
            "youngestMonths",
            "place",
            "fixing_height_mm",
            "fixingHeightMm",
            "fixings",
            "span_mm",
            "spanMm",
            "cot_distance_mm",
            "cotDistanceMm",
            "jurisdictions",
            "wall_width_mm",
            "wallWidthMm",
            "wall_height_mm",
            "wallHeightMm",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Who,
            YoungestMonths,
            Place,
            FixingHeightMm,
            Fixings,
            SpanMm,
            CotDistanceMm,
            Jurisdictions,
            WallWidthMm,
            WallHeightMm,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "who" => Ok(GeneratedField::Who),
                            "youngestMonths" | "youngest_months" => {
                                Ok(GeneratedField::YoungestMonths)
                            }
                            "place" => Ok(GeneratedField::Place),
                            "fixingHeightMm" | "fixing_height_mm" => {
                                Ok(GeneratedField::FixingHeightMm)
                            }
                            "fixings" => Ok(GeneratedField::Fixings),
                            "spanMm" | "span_mm" => Ok(GeneratedField::SpanMm),
                            "cotDistanceMm" | "cot_distance_mm" => {
                                Ok(GeneratedField::CotDistanceMm)
                            }
                            "jurisdictions" => Ok(GeneratedField::Jurisdictions),
                            "wallWidthMm" | "wall_width_mm" => {
                                Ok(GeneratedField::WallWidthMm)
                            }
                            "wallHeightMm" | "wall_height_mm" => {
                                Ok(GeneratedField::WallHeightMm)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Near;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Near")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Near, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut who__ = None;
                let mut youngest_months__ = None;
                let mut place__ = None;
                let mut fixing_height_mm__ = None;
                let mut fixings__ = None;
                let mut span_mm__ = None;
                let mut cot_distance_mm__ = None;
                let mut jurisdictions__ = None;
                let mut wall_width_mm__ = None;
                let mut wall_height_mm__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Who => {
                            if who__.is_some() {
                                return Err(serde::de::Error::duplicate_field("who"));
                            }
                            who__ = map_
                                .next_value::<::std::option::Option<Who>>()?
                                .map(|x| x as i32);
                        }
                        GeneratedField::YoungestMonths => {
                            if youngest_months__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("youngestMonths"),
                                );
                            }
                            youngest_months__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::Place => {
                            if place__.is_some() {
                                return Err(serde::de::Error::duplicate_field("place"));
                            }
                            place__ = map_
                                .next_value::<::std::option::Option<Place>>()?
                                .map(|x| x as i32);
                        }
                        GeneratedField::FixingHeightMm => {
                            if fixing_height_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("fixingHeightMm"),
                                );
                            }
                            fixing_height_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::Fixings => {
                            if fixings__.is_some() {
                                return Err(serde::de::Error::duplicate_field("fixings"));
                            }
                            fixings__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::SpanMm => {
                            if span_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("spanMm"));
                            }
                            span_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::CotDistanceMm => {
                            if cot_distance_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("cotDistanceMm"),
                                );
                            }
                            cot_distance_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::Jurisdictions => {
                            if jurisdictions__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("jurisdictions"),
                                );
                            }
                            jurisdictions__ = Some(
                                map_
                                    .next_value::<Vec<Jurisdiction>>()?
                                    .into_iter()
                                    .map(|x| x as i32)
                                    .collect(),
                            );
                        }
                        GeneratedField::WallWidthMm => {
                            if wall_width_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("wallWidthMm"),
                                );
                            }
                            wall_width_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::WallHeightMm => {
                            if wall_height_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("wallHeightMm"),
                                );
                            }
                            wall_height_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                    }
                }
                Ok(Near {
                    who: who__,
                    youngest_months: youngest_months__,
                    place: place__,
                    fixing_height_mm: fixing_height_mm__,
                    fixings: fixings__,
                    span_mm: span_mm__,
                    cot_distance_mm: cot_distance_mm__,
                    jurisdictions: jurisdictions__.unwrap_or_default(),
                    wall_width_mm: wall_width_mm__,
                    wall_height_mm: wall_height_mm__,
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Near", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Notice {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Notice", len)?;
        if true {
            struct_ser.serialize_field("code", &self.code)?;
        }
        if true {
            struct_ser.serialize_field("field", &self.field)?;
        }
        if true {
            struct_ser.serialize_field("message", &self.message)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Notice {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["code", "field", "message"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Code,
            Field,
            Message,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "code" => Ok(GeneratedField::Code),
                            "field" => Ok(GeneratedField::Field),
                            "message" => Ok(GeneratedField::Message),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Notice;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Notice")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Notice, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut code__ = None;
                let mut field__ = None;
                let mut message__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Code => {
                            if code__.is_some() {
                                return Err(serde::de::Error::duplicate_field("code"));
                            }
                            code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Field => {
                            if field__.is_some() {
                                return Err(serde::de::Error::duplicate_field("field"));
                            }
                            field__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Message => {
                            if message__.is_some() {
                                return Err(serde::de::Error::duplicate_field("message"));
                            }
                            message__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Notice {
                    code: code__.unwrap_or_default(),
                    field: field__.unwrap_or_default(),
                    message: message__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Notice", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Operation {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Operation", len)?;
        if true {
            struct_ser.serialize_field("code", &self.code)?;
        }
        if true {
            struct_ser.serialize_field("minutes", &self.minutes)?;
        }
        if true {
            struct_ser.serialize_field("name", &self.name)?;
        }
        if true {
            let v = Driver::try_from(self.driver)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.driver),
                ))?;
            struct_ser.serialize_field("driver", &v)?;
        }
        if true {
            struct_ser.serialize_field("count", &self.count)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Operation {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["code", "minutes", "name", "driver", "count"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Code,
            Minutes,
            Name,
            Driver,
            Count,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "code" => Ok(GeneratedField::Code),
                            "minutes" => Ok(GeneratedField::Minutes),
                            "name" => Ok(GeneratedField::Name),
                            "driver" => Ok(GeneratedField::Driver),
                            "count" => Ok(GeneratedField::Count),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Operation;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Operation")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<Operation, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut code__ = None;
                let mut minutes__ = None;
                let mut name__ = None;
                let mut driver__ = None;
                let mut count__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Code => {
                            if code__.is_some() {
                                return Err(serde::de::Error::duplicate_field("code"));
                            }
                            code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Minutes => {
                            if minutes__.is_some() {
                                return Err(serde::de::Error::duplicate_field("minutes"));
                            }
                            minutes__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Name => {
                            if name__.is_some() {
                                return Err(serde::de::Error::duplicate_field("name"));
                            }
                            name__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Driver => {
                            if driver__.is_some() {
                                return Err(serde::de::Error::duplicate_field("driver"));
                            }
                            driver__ = Some(map_.next_value::<Driver>()? as i32);
                        }
                        GeneratedField::Count => {
                            if count__.is_some() {
                                return Err(serde::de::Error::duplicate_field("count"));
                            }
                            count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                    }
                }
                Ok(Operation {
                    code: code__.unwrap_or_default(),
                    minutes: minutes__.unwrap_or_default(),
                    name: name__.unwrap_or_default(),
                    driver: driver__.unwrap_or_default(),
                    count: count__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.Operation", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Outcome {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "OUTCOME_UNSPECIFIED",
            Self::NothingFound => "OUTCOME_NOTHING_FOUND",
            Self::Warn => "OUTCOME_WARN",
            Self::Ask => "OUTCOME_ASK",
            Self::Restrict => "OUTCOME_RESTRICT",
            Self::Refuse => "OUTCOME_REFUSE",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for Outcome {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "OUTCOME_UNSPECIFIED",
            "OUTCOME_NOTHING_FOUND",
            "OUTCOME_WARN",
            "OUTCOME_ASK",
            "OUTCOME_RESTRICT",
            "OUTCOME_REFUSE",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = Outcome;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "OUTCOME_UNSPECIFIED" => Ok(Outcome::Unspecified),
                    "OUTCOME_NOTHING_FOUND" => Ok(Outcome::NothingFound),
                    "OUTCOME_WARN" => Ok(Outcome::Warn),
                    "OUTCOME_ASK" => Ok(Outcome::Ask),
                    "OUTCOME_RESTRICT" => Ok(Outcome::Restrict),
                    "OUTCOME_REFUSE" => Ok(Outcome::Refuse),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for PaperFinding {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.PaperFinding", len)?;
        if true {
            struct_ser.serialize_field("ruleId", &self.rule_id)?;
        }
        if true {
            let v = Jurisdiction::try_from(self.jurisdiction)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.jurisdiction),
                ))?;
            struct_ser.serialize_field("jurisdiction", &v)?;
        }
        if true {
            let v = PaperOutcome::try_from(self.outcome)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.outcome),
                ))?;
            struct_ser.serialize_field("outcome", &v)?;
        }
        if true {
            struct_ser.serialize_field("measured", &self.measured)?;
        }
        if true {
            struct_ser.serialize_field("limit", &self.limit)?;
        }
        if true {
            struct_ser.serialize_field("source", &self.source)?;
        }
        if true {
            struct_ser.serialize_field("remedy", &self.remedy)?;
        }
        if true {
            struct_ser.serialize_field("text", &self.text)?;
        }
        if true {
            let v = RuleBasis::try_from(self.basis)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.basis),
                ))?;
            struct_ser.serialize_field("basis", &v)?;
        }
        if true {
            let v = FigureOrigin::try_from(self.figure)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.figure),
                ))?;
            struct_ser.serialize_field("figure", &v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for PaperFinding {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "rule_id",
            "ruleId",
            "jurisdiction",
            "outcome",
            "measured",
            "limit",
            "source",
            "remedy",
            "text",
            "basis",
            "figure",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            RuleId,
            Jurisdiction,
            Outcome,
            Measured,
            Limit,
            Source,
            Remedy,
            Text,
            Basis,
            Figure,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "ruleId" | "rule_id" => Ok(GeneratedField::RuleId),
                            "jurisdiction" => Ok(GeneratedField::Jurisdiction),
                            "outcome" => Ok(GeneratedField::Outcome),
                            "measured" => Ok(GeneratedField::Measured),
                            "limit" => Ok(GeneratedField::Limit),
                            "source" => Ok(GeneratedField::Source),
                            "remedy" => Ok(GeneratedField::Remedy),
                            "text" => Ok(GeneratedField::Text),
                            "basis" => Ok(GeneratedField::Basis),
                            "figure" => Ok(GeneratedField::Figure),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = PaperFinding;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.PaperFinding")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<PaperFinding, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut rule_id__ = None;
                let mut jurisdiction__ = None;
                let mut outcome__ = None;
                let mut measured__ = None;
                let mut limit__ = None;
                let mut source__ = None;
                let mut remedy__ = None;
                let mut text__ = None;
                let mut basis__ = None;
                let mut figure__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::RuleId => {
                            if rule_id__.is_some() {
                                return Err(serde::de::Error::duplicate_field("ruleId"));
                            }
                            rule_id__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Jurisdiction => {
                            if jurisdiction__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("jurisdiction"),
                                );
                            }
                            jurisdiction__ = Some(
                                map_.next_value::<Jurisdiction>()? as i32,
                            );
                        }
                        GeneratedField::Outcome => {
                            if outcome__.is_some() {
                                return Err(serde::de::Error::duplicate_field("outcome"));
                            }
                            outcome__ = Some(map_.next_value::<PaperOutcome>()? as i32);
                        }
                        GeneratedField::Measured => {
                            if measured__.is_some() {
                                return Err(serde::de::Error::duplicate_field("measured"));
                            }
                            measured__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Limit => {
                            if limit__.is_some() {
                                return Err(serde::de::Error::duplicate_field("limit"));
                            }
                            limit__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Source => {
                            if source__.is_some() {
                                return Err(serde::de::Error::duplicate_field("source"));
                            }
                            source__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Remedy => {
                            if remedy__.is_some() {
                                return Err(serde::de::Error::duplicate_field("remedy"));
                            }
                            remedy__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Text => {
                            if text__.is_some() {
                                return Err(serde::de::Error::duplicate_field("text"));
                            }
                            text__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Basis => {
                            if basis__.is_some() {
                                return Err(serde::de::Error::duplicate_field("basis"));
                            }
                            basis__ = Some(map_.next_value::<RuleBasis>()? as i32);
                        }
                        GeneratedField::Figure => {
                            if figure__.is_some() {
                                return Err(serde::de::Error::duplicate_field("figure"));
                            }
                            figure__ = Some(map_.next_value::<FigureOrigin>()? as i32);
                        }
                    }
                }
                Ok(PaperFinding {
                    rule_id: rule_id__.unwrap_or_default(),
                    jurisdiction: jurisdiction__.unwrap_or_default(),
                    outcome: outcome__.unwrap_or_default(),
                    measured: measured__.unwrap_or_default(),
                    limit: limit__.unwrap_or_default(),
                    source: source__.unwrap_or_default(),
                    remedy: remedy__.unwrap_or_default(),
                    text: text__.unwrap_or_default(),
                    basis: basis__.unwrap_or_default(),
                    figure: figure__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.PaperFinding", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for PaperOutcome {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "PAPER_OUTCOME_UNSPECIFIED",
            Self::NothingFound => "PAPER_OUTCOME_NOTHING_FOUND",
            Self::Duty => "PAPER_OUTCOME_DUTY",
            Self::Restrict => "PAPER_OUTCOME_RESTRICT",
            Self::Refuse => "PAPER_OUTCOME_REFUSE",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for PaperOutcome {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "PAPER_OUTCOME_UNSPECIFIED",
            "PAPER_OUTCOME_NOTHING_FOUND",
            "PAPER_OUTCOME_DUTY",
            "PAPER_OUTCOME_RESTRICT",
            "PAPER_OUTCOME_REFUSE",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = PaperOutcome;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "PAPER_OUTCOME_UNSPECIFIED" => Ok(PaperOutcome::Unspecified),
                    "PAPER_OUTCOME_NOTHING_FOUND" => Ok(PaperOutcome::NothingFound),
                    "PAPER_OUTCOME_DUTY" => Ok(PaperOutcome::Duty),
                    "PAPER_OUTCOME_RESTRICT" => Ok(PaperOutcome::Restrict),
                    "PAPER_OUTCOME_REFUSE" => Ok(PaperOutcome::Refuse),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for Paperwork {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Paperwork", len)?;
        if true {
            let v = PaperOutcome::try_from(self.outcome)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.outcome),
                ))?;
            struct_ser.serialize_field("outcome", &v)?;
        }
        if true {
            struct_ser.serialize_field("findings", &self.findings)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Paperwork {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["outcome", "findings"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Outcome,
            Findings,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "outcome" => Ok(GeneratedField::Outcome),
                            "findings" => Ok(GeneratedField::Findings),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Paperwork;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Paperwork")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<Paperwork, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut outcome__ = None;
                let mut findings__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Outcome => {
                            if outcome__.is_some() {
                                return Err(serde::de::Error::duplicate_field("outcome"));
                            }
                            outcome__ = Some(map_.next_value::<PaperOutcome>()? as i32);
                        }
                        GeneratedField::Findings => {
                            if findings__.is_some() {
                                return Err(serde::de::Error::duplicate_field("findings"));
                            }
                            findings__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Paperwork {
                    outcome: outcome__.unwrap_or_default(),
                    findings: findings__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.Paperwork", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Parcel {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Parcel", len)?;
        if true {
            struct_ser.serialize_field("netGrams", &self.net_grams)?;
        }
        if true {
            struct_ser.serialize_field("packedGrams", &self.packed_grams)?;
        }
        if let Some(v) = self.format_code.as_ref() {
            struct_ser.serialize_field("formatCode", v)?;
        }
        if let Some(v) = self.service_code.as_ref() {
            struct_ser.serialize_field("serviceCode", v)?;
        }
        if true {
            struct_ser.serialize_field("leastGrams", &self.least_grams)?;
        }
        if true {
            struct_ser.serialize_field("mostGrams", &self.most_grams)?;
        }
        if let Some(v) = self.length_mm.as_ref() {
            struct_ser.serialize_field("lengthMm", v)?;
        }
        if let Some(v) = self.width_mm.as_ref() {
            struct_ser.serialize_field("widthMm", v)?;
        }
        if let Some(v) = self.thickness_mm.as_ref() {
            struct_ser.serialize_field("thicknessMm", v)?;
        }
        if let Some(v) = self.panel_count.as_ref() {
            struct_ser.serialize_field("panelCount", v)?;
        }
        if let Some(v) = self.counted_grams.as_ref() {
            struct_ser.serialize_field("countedGrams", v)?;
        }
        if let Some(v) = self.band_grams.as_ref() {
            struct_ser.serialize_field("bandGrams", v)?;
        }
        if let Some(v) = self.to_edge_grams.as_ref() {
            struct_ser.serialize_field("toEdgeGrams", v)?;
        }
        if let Some(v) = self.postage.as_ref() {
            struct_ser.serialize_field("postage", v)?;
        }
        if true {
            struct_ser.serialize_field("parts", &self.parts)?;
        }
        if let Some(v) = self.customs.as_ref() {
            struct_ser.serialize_field("customs", v)?;
        }
        if let Some(v) = self.column_count.as_ref() {
            struct_ser.serialize_field("columnCount", v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Parcel {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "net_grams",
            "netGrams",
            "packed_grams",
            "packedGrams",
            "format_code",
            "formatCode",
            "service_code",
            "serviceCode",
            "least_grams",
            "leastGrams",
            "most_grams",
            "mostGrams",
            "length_mm",
            "lengthMm",
            "width_mm",
            "widthMm",
            "thickness_mm",
            "thicknessMm",
            "panel_count",
            "panelCount",
            "counted_grams",
            "countedGrams",
            "band_grams",
            "bandGrams",
            "to_edge_grams",
            "toEdgeGrams",
            "postage",
            "parts",
            "customs",
            "column_count",
            "columnCount",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            NetGrams,
            PackedGrams,
            FormatCode,
            ServiceCode,
            LeastGrams,
            MostGrams,
            LengthMm,
            WidthMm,
            ThicknessMm,
            PanelCount,
            CountedGrams,
            BandGrams,
            ToEdgeGrams,
            Postage,
            Parts,
            Customs,
            ColumnCount,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "netGrams" | "net_grams" => Ok(GeneratedField::NetGrams),
                            "packedGrams" | "packed_grams" => {
                                Ok(GeneratedField::PackedGrams)
                            }
                            "formatCode" | "format_code" => {
                                Ok(GeneratedField::FormatCode)
                            }
                            "serviceCode" | "service_code" => {
                                Ok(GeneratedField::ServiceCode)
                            }
                            "leastGrams" | "least_grams" => {
                                Ok(GeneratedField::LeastGrams)
                            }
                            "mostGrams" | "most_grams" => Ok(GeneratedField::MostGrams),
                            "lengthMm" | "length_mm" => Ok(GeneratedField::LengthMm),
                            "widthMm" | "width_mm" => Ok(GeneratedField::WidthMm),
                            "thicknessMm" | "thickness_mm" => {
                                Ok(GeneratedField::ThicknessMm)
                            }
                            "panelCount" | "panel_count" => {
                                Ok(GeneratedField::PanelCount)
                            }
                            "countedGrams" | "counted_grams" => {
                                Ok(GeneratedField::CountedGrams)
                            }
                            "bandGrams" | "band_grams" => Ok(GeneratedField::BandGrams),
                            "toEdgeGrams" | "to_edge_grams" => {
                                Ok(GeneratedField::ToEdgeGrams)
                            }
                            "postage" => Ok(GeneratedField::Postage),
                            "parts" => Ok(GeneratedField::Parts),
                            "customs" => Ok(GeneratedField::Customs),
                            "columnCount" | "column_count" => {
                                Ok(GeneratedField::ColumnCount)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Parcel;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Parcel")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Parcel, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut net_grams__ = None;
                let mut packed_grams__ = None;
                let mut format_code__ = None;
                let mut service_code__ = None;
                let mut least_grams__ = None;
                let mut most_grams__ = None;
                let mut length_mm__ = None;
                let mut width_mm__ = None;
                let mut thickness_mm__ = None;
                let mut panel_count__ = None;
                let mut counted_grams__ = None;
                let mut band_grams__ = None;
                let mut to_edge_grams__ = None;
                let mut postage__ = None;
                let mut parts__ = None;
                let mut customs__ = None;
                let mut column_count__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::NetGrams => {
                            if net_grams__.is_some() {
                                return Err(serde::de::Error::duplicate_field("netGrams"));
                            }
                            net_grams__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::PackedGrams => {
                            if packed_grams__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("packedGrams"),
                                );
                            }
                            packed_grams__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::FormatCode => {
                            if format_code__.is_some() {
                                return Err(serde::de::Error::duplicate_field("formatCode"));
                            }
                            format_code__ = map_.next_value()?;
                        }
                        GeneratedField::ServiceCode => {
                            if service_code__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("serviceCode"),
                                );
                            }
                            service_code__ = map_.next_value()?;
                        }
                        GeneratedField::LeastGrams => {
                            if least_grams__.is_some() {
                                return Err(serde::de::Error::duplicate_field("leastGrams"));
                            }
                            least_grams__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::MostGrams => {
                            if most_grams__.is_some() {
                                return Err(serde::de::Error::duplicate_field("mostGrams"));
                            }
                            most_grams__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::LengthMm => {
                            if length_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("lengthMm"));
                            }
                            length_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::WidthMm => {
                            if width_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("widthMm"));
                            }
                            width_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::ThicknessMm => {
                            if thickness_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("thicknessMm"),
                                );
                            }
                            thickness_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::PanelCount => {
                            if panel_count__.is_some() {
                                return Err(serde::de::Error::duplicate_field("panelCount"));
                            }
                            panel_count__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::CountedGrams => {
                            if counted_grams__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("countedGrams"),
                                );
                            }
                            counted_grams__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::BandGrams => {
                            if band_grams__.is_some() {
                                return Err(serde::de::Error::duplicate_field("bandGrams"));
                            }
                            band_grams__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::ToEdgeGrams => {
                            if to_edge_grams__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("toEdgeGrams"),
                                );
                            }
                            to_edge_grams__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::Postage => {
                            if postage__.is_some() {
                                return Err(serde::de::Error::duplicate_field("postage"));
                            }
                            postage__ = map_.next_value()?;
                        }
                        GeneratedField::Parts => {
                            if parts__.is_some() {
                                return Err(serde::de::Error::duplicate_field("parts"));
                            }
                            parts__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Customs => {
                            if customs__.is_some() {
                                return Err(serde::de::Error::duplicate_field("customs"));
                            }
                            customs__ = map_.next_value()?;
                        }
                        GeneratedField::ColumnCount => {
                            if column_count__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("columnCount"),
                                );
                            }
                            column_count__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                    }
                }
                Ok(Parcel {
                    net_grams: net_grams__.unwrap_or_default(),
                    packed_grams: packed_grams__.unwrap_or_default(),
                    format_code: format_code__,
                    service_code: service_code__,
                    least_grams: least_grams__.unwrap_or_default(),
                    most_grams: most_grams__.unwrap_or_default(),
                    length_mm: length_mm__,
                    width_mm: width_mm__,
                    thickness_mm: thickness_mm__,
                    panel_count: panel_count__,
                    counted_grams: counted_grams__,
                    band_grams: band_grams__,
                    to_edge_grams: to_edge_grams__,
                    postage: postage__,
                    parts: parts__.unwrap_or_default(),
                    customs: customs__,
                    column_count: column_count__,
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Parcel", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Parity {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "PARITY_UNSPECIFIED",
            Self::Odd => "PARITY_ODD",
            Self::Even => "PARITY_EVEN",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for Parity {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["PARITY_UNSPECIFIED", "PARITY_ODD", "PARITY_EVEN"];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = Parity;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "PARITY_UNSPECIFIED" => Ok(Parity::Unspecified),
                    "PARITY_ODD" => Ok(Parity::Odd),
                    "PARITY_EVEN" => Ok(Parity::Even),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for Pennant {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Pennant", len)?;
        if let Some(v) = self.shape.as_ref() {
            let v = Shape::try_from(*v)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", * v),
                ))?;
            struct_ser.serialize_field("shape", &v)?;
        }
        if let Some(v) = self.width_mm.as_ref() {
            struct_ser.serialize_field("widthMm", v)?;
        }
        if let Some(v) = self.drop_mm.as_ref() {
            struct_ser.serialize_field("dropMm", v)?;
        }
        if let Some(v) = self.size_at.as_ref() {
            let v = SizeAt::try_from(*v)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", * v),
                ))?;
            struct_ser.serialize_field("sizeAt", &v)?;
        }
        if let Some(v) = self.foot_mm.as_ref() {
            struct_ser.serialize_field("footMm", v)?;
        }
        if let Some(v) = self.notch_mm.as_ref() {
            struct_ser.serialize_field("notchMm", v)?;
        }
        if let Some(v) = self.shoulder_mm.as_ref() {
            struct_ser.serialize_field("shoulderMm", v)?;
        }
        if let Some(v) = self.rise_mm.as_ref() {
            struct_ser.serialize_field("riseMm", v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Pennant {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "shape",
            "width_mm",
            "widthMm",
            "drop_mm",
            "dropMm",
            "size_at",
            "sizeAt",
            "foot_mm",
            "footMm",
            "notch_mm",
            "notchMm",
            "shoulder_mm",
            "shoulderMm",
            "rise_mm",
            "riseMm",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Shape,
            WidthMm,
            DropMm,
            SizeAt,
            FootMm,
            NotchMm,
            ShoulderMm,
            RiseMm,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "shape" => Ok(GeneratedField::Shape),
                            "widthMm" | "width_mm" => Ok(GeneratedField::WidthMm),
                            "dropMm" | "drop_mm" => Ok(GeneratedField::DropMm),
                            "sizeAt" | "size_at" => Ok(GeneratedField::SizeAt),
                            "footMm" | "foot_mm" => Ok(GeneratedField::FootMm),
                            "notchMm" | "notch_mm" => Ok(GeneratedField::NotchMm),
                            "shoulderMm" | "shoulder_mm" => {
                                Ok(GeneratedField::ShoulderMm)
                            }
                            "riseMm" | "rise_mm" => Ok(GeneratedField::RiseMm),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Pennant;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Pennant")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Pennant, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut shape__ = None;
                let mut width_mm__ = None;
                let mut drop_mm__ = None;
                let mut size_at__ = None;
                let mut foot_mm__ = None;
                let mut notch_mm__ = None;
                let mut shoulder_mm__ = None;
                let mut rise_mm__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Shape => {
                            if shape__.is_some() {
                                return Err(serde::de::Error::duplicate_field("shape"));
                            }
                            shape__ = map_
                                .next_value::<::std::option::Option<Shape>>()?
                                .map(|x| x as i32);
                        }
                        GeneratedField::WidthMm => {
                            if width_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("widthMm"));
                            }
                            width_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::DropMm => {
                            if drop_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("dropMm"));
                            }
                            drop_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::SizeAt => {
                            if size_at__.is_some() {
                                return Err(serde::de::Error::duplicate_field("sizeAt"));
                            }
                            size_at__ = map_
                                .next_value::<::std::option::Option<SizeAt>>()?
                                .map(|x| x as i32);
                        }
                        GeneratedField::FootMm => {
                            if foot_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("footMm"));
                            }
                            foot_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::NotchMm => {
                            if notch_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("notchMm"));
                            }
                            notch_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::ShoulderMm => {
                            if shoulder_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("shoulderMm"));
                            }
                            shoulder_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                        GeneratedField::RiseMm => {
                            if rise_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("riseMm"));
                            }
                            rise_mm__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                    }
                }
                Ok(Pennant {
                    shape: shape__,
                    width_mm: width_mm__,
                    drop_mm: drop_mm__,
                    size_at: size_at__,
                    foot_mm: foot_mm__,
                    notch_mm: notch_mm__,
                    shoulder_mm: shoulder_mm__,
                    rise_mm: rise_mm__,
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Pennant", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Place {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "PLACE_UNSPECIFIED",
            Self::Cot => "PLACE_COT",
            Self::ChildRoom => "PLACE_CHILD_ROOM",
            Self::Home => "PLACE_HOME",
            Self::Childcare => "PLACE_CHILDCARE",
            Self::Venue => "PLACE_VENUE",
            Self::Outdoors => "PLACE_OUTDOORS",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for Place {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "PLACE_UNSPECIFIED",
            "PLACE_COT",
            "PLACE_CHILD_ROOM",
            "PLACE_HOME",
            "PLACE_CHILDCARE",
            "PLACE_VENUE",
            "PLACE_OUTDOORS",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = Place;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "PLACE_UNSPECIFIED" => Ok(Place::Unspecified),
                    "PLACE_COT" => Ok(Place::Cot),
                    "PLACE_CHILD_ROOM" => Ok(Place::ChildRoom),
                    "PLACE_HOME" => Ok(Place::Home),
                    "PLACE_CHILDCARE" => Ok(Place::Childcare),
                    "PLACE_VENUE" => Ok(Place::Venue),
                    "PLACE_OUTDOORS" => Ok(Place::Outdoors),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for PlanBand {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.PlanBand", len)?;
        if true {
            let v = RowKind::try_from(self.kind)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.kind),
                ))?;
            struct_ser.serialize_field("kind", &v)?;
        }
        if true {
            struct_ser.serialize_field("rowCount", &self.row_count)?;
        }
        if true {
            struct_ser.serialize_field("piecesPerRow", &self.pieces_per_row)?;
        }
        if true {
            struct_ser.serialize_field("startMm", &self.start_mm)?;
        }
        if true {
            struct_ser.serialize_field("rowMm", &self.row_mm)?;
        }
        if true {
            struct_ser.serialize_field("pitchMm", &self.pitch_mm)?;
        }
        if true {
            struct_ser.serialize_field("slackMm", &self.slack_mm)?;
        }
        if true {
            struct_ser.serialize_field("leftMm", &self.left_mm)?;
        }
        if true {
            struct_ser.serialize_field("shiftMm", &self.shift_mm)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for PlanBand {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "kind",
            "row_count",
            "rowCount",
            "pieces_per_row",
            "piecesPerRow",
            "start_mm",
            "startMm",
            "row_mm",
            "rowMm",
            "pitch_mm",
            "pitchMm",
            "slack_mm",
            "slackMm",
            "left_mm",
            "leftMm",
            "shift_mm",
            "shiftMm",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Kind,
            RowCount,
            PiecesPerRow,
            StartMm,
            RowMm,
            PitchMm,
            SlackMm,
            LeftMm,
            ShiftMm,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "kind" => Ok(GeneratedField::Kind),
                            "rowCount" | "row_count" => Ok(GeneratedField::RowCount),
                            "piecesPerRow" | "pieces_per_row" => {
                                Ok(GeneratedField::PiecesPerRow)
                            }
                            "startMm" | "start_mm" => Ok(GeneratedField::StartMm),
                            "rowMm" | "row_mm" => Ok(GeneratedField::RowMm),
                            "pitchMm" | "pitch_mm" => Ok(GeneratedField::PitchMm),
                            "slackMm" | "slack_mm" => Ok(GeneratedField::SlackMm),
                            "leftMm" | "left_mm" => Ok(GeneratedField::LeftMm),
                            "shiftMm" | "shift_mm" => Ok(GeneratedField::ShiftMm),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = PlanBand;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.PlanBand")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<PlanBand, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut kind__ = None;
                let mut row_count__ = None;
                let mut pieces_per_row__ = None;
                let mut start_mm__ = None;
                let mut row_mm__ = None;
                let mut pitch_mm__ = None;
                let mut slack_mm__ = None;
                let mut left_mm__ = None;
                let mut shift_mm__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Kind => {
                            if kind__.is_some() {
                                return Err(serde::de::Error::duplicate_field("kind"));
                            }
                            kind__ = Some(map_.next_value::<RowKind>()? as i32);
                        }
                        GeneratedField::RowCount => {
                            if row_count__.is_some() {
                                return Err(serde::de::Error::duplicate_field("rowCount"));
                            }
                            row_count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::PiecesPerRow => {
                            if pieces_per_row__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("piecesPerRow"),
                                );
                            }
                            pieces_per_row__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::StartMm => {
                            if start_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("startMm"));
                            }
                            start_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::RowMm => {
                            if row_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("rowMm"));
                            }
                            row_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::PitchMm => {
                            if pitch_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("pitchMm"));
                            }
                            pitch_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::SlackMm => {
                            if slack_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("slackMm"));
                            }
                            slack_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::LeftMm => {
                            if left_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("leftMm"));
                            }
                            left_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::ShiftMm => {
                            if shift_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("shiftMm"));
                            }
                            shift_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                    }
                }
                Ok(PlanBand {
                    kind: kind__.unwrap_or_default(),
                    row_count: row_count__.unwrap_or_default(),
                    pieces_per_row: pieces_per_row__.unwrap_or_default(),
                    start_mm: start_mm__.unwrap_or_default(),
                    row_mm: row_mm__.unwrap_or_default(),
                    pitch_mm: pitch_mm__.unwrap_or_default(),
                    slack_mm: slack_mm__.unwrap_or_default(),
                    left_mm: left_mm__.unwrap_or_default(),
                    shift_mm: shift_mm__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.PlanBand", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Positions {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Positions", len)?;
        if true {
            struct_ser.serialize_field("grainMm", &self.grain_mm)?;
        }
        if true {
            struct_ser.serialize_field("pitchMm", &self.pitch_mm)?;
        }
        if let Some(v) = self.first.as_ref() {
            struct_ser.serialize_field("first", v)?;
        }
        if let Some(v) = self.last.as_ref() {
            struct_ser.serialize_field("last", v)?;
        }
        if true {
            struct_ser.serialize_field("marks", &self.marks)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Positions {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "grain_mm",
            "grainMm",
            "pitch_mm",
            "pitchMm",
            "first",
            "last",
            "marks",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            GrainMm,
            PitchMm,
            First,
            Last,
            Marks,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "grainMm" | "grain_mm" => Ok(GeneratedField::GrainMm),
                            "pitchMm" | "pitch_mm" => Ok(GeneratedField::PitchMm),
                            "first" => Ok(GeneratedField::First),
                            "last" => Ok(GeneratedField::Last),
                            "marks" => Ok(GeneratedField::Marks),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Positions;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Positions")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<Positions, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut grain_mm__ = None;
                let mut pitch_mm__ = None;
                let mut first__ = None;
                let mut last__ = None;
                let mut marks__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::GrainMm => {
                            if grain_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("grainMm"));
                            }
                            grain_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::PitchMm => {
                            if pitch_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("pitchMm"));
                            }
                            pitch_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::First => {
                            if first__.is_some() {
                                return Err(serde::de::Error::duplicate_field("first"));
                            }
                            first__ = map_.next_value()?;
                        }
                        GeneratedField::Last => {
                            if last__.is_some() {
                                return Err(serde::de::Error::duplicate_field("last"));
                            }
                            last__ = map_.next_value()?;
                        }
                        GeneratedField::Marks => {
                            if marks__.is_some() {
                                return Err(serde::de::Error::duplicate_field("marks"));
                            }
                            marks__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Positions {
                    grain_mm: grain_mm__.unwrap_or_default(),
                    pitch_mm: pitch_mm__.unwrap_or_default(),
                    first: first__,
                    last: last__,
                    marks: marks__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.Positions", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for PostalService {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.PostalService", len)?;
        if true {
            struct_ser.serialize_field("code", &self.code)?;
        }
        if true {
            struct_ser.serialize_field("name", &self.name)?;
        }
        if true {
            struct_ser.serialize_field("countryCodes", &self.country_codes)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for PostalService {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["code", "name", "country_codes", "countryCodes"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Code,
            Name,
            CountryCodes,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "code" => Ok(GeneratedField::Code),
                            "name" => Ok(GeneratedField::Name),
                            "countryCodes" | "country_codes" => {
                                Ok(GeneratedField::CountryCodes)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = PostalService;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.PostalService")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<PostalService, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut code__ = None;
                let mut name__ = None;
                let mut country_codes__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Code => {
                            if code__.is_some() {
                                return Err(serde::de::Error::duplicate_field("code"));
                            }
                            code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Name => {
                            if name__.is_some() {
                                return Err(serde::de::Error::duplicate_field("name"));
                            }
                            name__ = Some(map_.next_value()?);
                        }
                        GeneratedField::CountryCodes => {
                            if country_codes__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("countryCodes"),
                                );
                            }
                            country_codes__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(PostalService {
                    code: code__.unwrap_or_default(),
                    name: name__.unwrap_or_default(),
                    country_codes: country_codes__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.PostalService", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Price {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Price", len)?;
        if true {
            struct_ser.serialize_field("lines", &self.lines)?;
        }
        if let Some(v) = self.total.as_ref() {
            struct_ser.serialize_field("total", v)?;
        }
        if true {
            struct_ser.serialize_field("minorDigits", &self.minor_digits)?;
        }
        if let Some(v) = self.tax.as_ref() {
            struct_ser.serialize_field("tax", v)?;
        }
        if let Some(v) = self.cost.as_ref() {
            struct_ser.serialize_field("cost", v)?;
        }
        if let Some(v) = self.per_metre.as_ref() {
            struct_ser.serialize_field("perMetre", v)?;
        }
        if true {
            let v = PriceBasis::try_from(self.basis)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.basis),
                ))?;
            struct_ser.serialize_field("basis", &v)?;
        }
        if let Some(v) = self.withdrawal.as_ref() {
            struct_ser.serialize_field("withdrawal", v)?;
        }
        if true {
            struct_ser.serialize_field("strings", &self.strings)?;
        }
        if true {
            struct_ser.serialize_field("breaks", &self.breaks)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Price {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "lines",
            "total",
            "minor_digits",
            "minorDigits",
            "tax",
            "cost",
            "per_metre",
            "perMetre",
            "basis",
            "withdrawal",
            "strings",
            "breaks",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Lines,
            Total,
            MinorDigits,
            Tax,
            Cost,
            PerMetre,
            Basis,
            Withdrawal,
            Strings,
            Breaks,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "lines" => Ok(GeneratedField::Lines),
                            "total" => Ok(GeneratedField::Total),
                            "minorDigits" | "minor_digits" => {
                                Ok(GeneratedField::MinorDigits)
                            }
                            "tax" => Ok(GeneratedField::Tax),
                            "cost" => Ok(GeneratedField::Cost),
                            "perMetre" | "per_metre" => Ok(GeneratedField::PerMetre),
                            "basis" => Ok(GeneratedField::Basis),
                            "withdrawal" => Ok(GeneratedField::Withdrawal),
                            "strings" => Ok(GeneratedField::Strings),
                            "breaks" => Ok(GeneratedField::Breaks),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Price;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Price")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Price, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut lines__ = None;
                let mut total__ = None;
                let mut minor_digits__ = None;
                let mut tax__ = None;
                let mut cost__ = None;
                let mut per_metre__ = None;
                let mut basis__ = None;
                let mut withdrawal__ = None;
                let mut strings__ = None;
                let mut breaks__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Lines => {
                            if lines__.is_some() {
                                return Err(serde::de::Error::duplicate_field("lines"));
                            }
                            lines__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Total => {
                            if total__.is_some() {
                                return Err(serde::de::Error::duplicate_field("total"));
                            }
                            total__ = map_.next_value()?;
                        }
                        GeneratedField::MinorDigits => {
                            if minor_digits__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("minorDigits"),
                                );
                            }
                            minor_digits__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Tax => {
                            if tax__.is_some() {
                                return Err(serde::de::Error::duplicate_field("tax"));
                            }
                            tax__ = map_.next_value()?;
                        }
                        GeneratedField::Cost => {
                            if cost__.is_some() {
                                return Err(serde::de::Error::duplicate_field("cost"));
                            }
                            cost__ = map_.next_value()?;
                        }
                        GeneratedField::PerMetre => {
                            if per_metre__.is_some() {
                                return Err(serde::de::Error::duplicate_field("perMetre"));
                            }
                            per_metre__ = map_.next_value()?;
                        }
                        GeneratedField::Basis => {
                            if basis__.is_some() {
                                return Err(serde::de::Error::duplicate_field("basis"));
                            }
                            basis__ = Some(map_.next_value::<PriceBasis>()? as i32);
                        }
                        GeneratedField::Withdrawal => {
                            if withdrawal__.is_some() {
                                return Err(serde::de::Error::duplicate_field("withdrawal"));
                            }
                            withdrawal__ = map_.next_value()?;
                        }
                        GeneratedField::Strings => {
                            if strings__.is_some() {
                                return Err(serde::de::Error::duplicate_field("strings"));
                            }
                            strings__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Breaks => {
                            if breaks__.is_some() {
                                return Err(serde::de::Error::duplicate_field("breaks"));
                            }
                            breaks__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Price {
                    lines: lines__.unwrap_or_default(),
                    total: total__,
                    minor_digits: minor_digits__.unwrap_or_default(),
                    tax: tax__,
                    cost: cost__,
                    per_metre: per_metre__,
                    basis: basis__.unwrap_or_default(),
                    withdrawal: withdrawal__,
                    strings: strings__.unwrap_or_default(),
                    breaks: breaks__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Price", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for PriceBasis {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "PRICE_BASIS_UNSPECIFIED",
            Self::CostPlus => "PRICE_BASIS_COST_PLUS",
            Self::PerMetre => "PRICE_BASIS_PER_METRE",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for PriceBasis {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "PRICE_BASIS_UNSPECIFIED",
            "PRICE_BASIS_COST_PLUS",
            "PRICE_BASIS_PER_METRE",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = PriceBasis;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "PRICE_BASIS_UNSPECIFIED" => Ok(PriceBasis::Unspecified),
                    "PRICE_BASIS_COST_PLUS" => Ok(PriceBasis::CostPlus),
                    "PRICE_BASIS_PER_METRE" => Ok(PriceBasis::PerMetre),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for PriceLine {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.PriceLine", len)?;
        if true {
            struct_ser.serialize_field("code", &self.code)?;
        }
        if true {
            struct_ser.serialize_field("text", &self.text)?;
        }
        if let Some(v) = self.amount.as_ref() {
            struct_ser.serialize_field("amount", v)?;
        }
        if let Some(v) = self.tax.as_ref() {
            struct_ser.serialize_field("tax", v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for PriceLine {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["code", "text", "amount", "tax"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Code,
            Text,
            Amount,
            Tax,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "code" => Ok(GeneratedField::Code),
                            "text" => Ok(GeneratedField::Text),
                            "amount" => Ok(GeneratedField::Amount),
                            "tax" => Ok(GeneratedField::Tax),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = PriceLine;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.PriceLine")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<PriceLine, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut code__ = None;
                let mut text__ = None;
                let mut amount__ = None;
                let mut tax__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Code => {
                            if code__.is_some() {
                                return Err(serde::de::Error::duplicate_field("code"));
                            }
                            code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Text => {
                            if text__.is_some() {
                                return Err(serde::de::Error::duplicate_field("text"));
                            }
                            text__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Amount => {
                            if amount__.is_some() {
                                return Err(serde::de::Error::duplicate_field("amount"));
                            }
                            amount__ = map_.next_value()?;
                        }
                        GeneratedField::Tax => {
                            if tax__.is_some() {
                                return Err(serde::de::Error::duplicate_field("tax"));
                            }
                            tax__ = map_.next_value()?;
                        }
                    }
                }
                Ok(PriceLine {
                    code: code__.unwrap_or_default(),
                    text: text__.unwrap_or_default(),
                    amount: amount__,
                    tax: tax__,
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.PriceLine", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for QuantityBreak {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.QuantityBreak", len)?;
        if true {
            struct_ser.serialize_field("quantity", &self.quantity)?;
        }
        if true {
            struct_ser.serialize_field("offPercent", &self.off_percent)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for QuantityBreak {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["quantity", "off_percent", "offPercent"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Quantity,
            OffPercent,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "quantity" => Ok(GeneratedField::Quantity),
                            "offPercent" | "off_percent" => {
                                Ok(GeneratedField::OffPercent)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = QuantityBreak;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.QuantityBreak")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<QuantityBreak, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut quantity__ = None;
                let mut off_percent__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Quantity => {
                            if quantity__.is_some() {
                                return Err(serde::de::Error::duplicate_field("quantity"));
                            }
                            quantity__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::OffPercent => {
                            if off_percent__.is_some() {
                                return Err(serde::de::Error::duplicate_field("offPercent"));
                            }
                            off_percent__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                    }
                }
                Ok(QuantityBreak {
                    quantity: quantity__.unwrap_or_default(),
                    off_percent: off_percent__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.QuantityBreak", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Quote {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Quote", len)?;
        if let Some(v) = self.quote_id.as_ref() {
            struct_ser.serialize_field("quoteId", v)?;
        }
        if true {
            struct_ser.serialize_field("catalogueRevision", &self.catalogue_revision)?;
        }
        if let Some(v) = self.expire_time.as_ref() {
            struct_ser.serialize_field("expireTime", v)?;
        }
        if let Some(v) = self.token.as_ref() {
            struct_ser.serialize_field("token", v)?;
        }
        if let Some(v) = self.understood.as_ref() {
            struct_ser.serialize_field("understood", v)?;
        }
        if let Some(v) = self.layout.as_ref() {
            struct_ser.serialize_field("layout", v)?;
        }
        if true {
            struct_ser.serialize_field("fabrics", &self.fabrics)?;
        }
        if let Some(v) = self.binding.as_ref() {
            struct_ser.serialize_field("binding", v)?;
        }
        if let Some(v) = self.thread.as_ref() {
            struct_ser.serialize_field("thread", v)?;
        }
        if let Some(v) = self.labour.as_ref() {
            struct_ser.serialize_field("labour", v)?;
        }
        if let Some(v) = self.dates.as_ref() {
            struct_ser.serialize_field("dates", v)?;
        }
        if let Some(v) = self.parcel.as_ref() {
            struct_ser.serialize_field("parcel", v)?;
        }
        if let Some(v) = self.price.as_ref() {
            struct_ser.serialize_field("price", v)?;
        }
        if let Some(v) = self.child.as_ref() {
            struct_ser.serialize_field("child", v)?;
        }
        if let Some(v) = self.paperwork.as_ref() {
            struct_ser.serialize_field("paperwork", v)?;
        }
        if true {
            struct_ser.serialize_field("notices", &self.notices)?;
        }
        if true {
            struct_ser.serialize_field("workings", &self.workings)?;
        }
        if let Some(v) = self.shelf.as_ref() {
            struct_ser.serialize_field("shelf", v)?;
        }
        if true {
            struct_ser.serialize_field("sundries", &self.sundries)?;
        }
        if true {
            struct_ser.serialize_field("leaflet", &self.leaflet)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Quote {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "quote_id",
            "quoteId",
            "catalogue_revision",
            "catalogueRevision",
            "expire_time",
            "expireTime",
            "token",
            "understood",
            "layout",
            "fabrics",
            "binding",
            "thread",
            "labour",
            "dates",
            "parcel",
            "price",
            "child",
            "paperwork",
            "notices",
            "workings",
            "shelf",
            "sundries",
            "leaflet",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            QuoteId,
            CatalogueRevision,
            ExpireTime,
            Token,
            Understood,
            Layout,
            Fabrics,
            Binding,
            Thread,
            Labour,
            Dates,
            Parcel,
            Price,
            Child,
            Paperwork,
            Notices,
            Workings,
            Shelf,
            Sundries,
            Leaflet,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "quoteId" | "quote_id" => Ok(GeneratedField::QuoteId),
                            "catalogueRevision" | "catalogue_revision" => {
                                Ok(GeneratedField::CatalogueRevision)
                            }
                            "expireTime" | "expire_time" => {
                                Ok(GeneratedField::ExpireTime)
                            }
                            "token" => Ok(GeneratedField::Token),
                            "understood" => Ok(GeneratedField::Understood),
                            "layout" => Ok(GeneratedField::Layout),
                            "fabrics" => Ok(GeneratedField::Fabrics),
                            "binding" => Ok(GeneratedField::Binding),
                            "thread" => Ok(GeneratedField::Thread),
                            "labour" => Ok(GeneratedField::Labour),
                            "dates" => Ok(GeneratedField::Dates),
                            "parcel" => Ok(GeneratedField::Parcel),
                            "price" => Ok(GeneratedField::Price),
                            "child" => Ok(GeneratedField::Child),
                            "paperwork" => Ok(GeneratedField::Paperwork),
                            "notices" => Ok(GeneratedField::Notices),
                            "workings" => Ok(GeneratedField::Workings),
                            "shelf" => Ok(GeneratedField::Shelf),
                            "sundries" => Ok(GeneratedField::Sundries),
                            "leaflet" => Ok(GeneratedField::Leaflet),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Quote;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Quote")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Quote, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut quote_id__ = None;
                let mut catalogue_revision__ = None;
                let mut expire_time__ = None;
                let mut token__ = None;
                let mut understood__ = None;
                let mut layout__ = None;
                let mut fabrics__ = None;
                let mut binding__ = None;
                let mut thread__ = None;
                let mut labour__ = None;
                let mut dates__ = None;
                let mut parcel__ = None;
                let mut price__ = None;
                let mut child__ = None;
                let mut paperwork__ = None;
                let mut notices__ = None;
                let mut workings__ = None;
                let mut shelf__ = None;
                let mut sundries__ = None;
                let mut leaflet__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::QuoteId => {
                            if quote_id__.is_some() {
                                return Err(serde::de::Error::duplicate_field("quoteId"));
                            }
                            quote_id__ = map_.next_value()?;
                        }
                        GeneratedField::CatalogueRevision => {
                            if catalogue_revision__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("catalogueRevision"),
                                );
                            }
                            catalogue_revision__ = Some(map_.next_value()?);
                        }
                        GeneratedField::ExpireTime => {
                            if expire_time__.is_some() {
                                return Err(serde::de::Error::duplicate_field("expireTime"));
                            }
                            expire_time__ = map_.next_value()?;
                        }
                        GeneratedField::Token => {
                            if token__.is_some() {
                                return Err(serde::de::Error::duplicate_field("token"));
                            }
                            token__ = map_.next_value()?;
                        }
                        GeneratedField::Understood => {
                            if understood__.is_some() {
                                return Err(serde::de::Error::duplicate_field("understood"));
                            }
                            understood__ = map_.next_value()?;
                        }
                        GeneratedField::Layout => {
                            if layout__.is_some() {
                                return Err(serde::de::Error::duplicate_field("layout"));
                            }
                            layout__ = map_.next_value()?;
                        }
                        GeneratedField::Fabrics => {
                            if fabrics__.is_some() {
                                return Err(serde::de::Error::duplicate_field("fabrics"));
                            }
                            fabrics__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Binding => {
                            if binding__.is_some() {
                                return Err(serde::de::Error::duplicate_field("binding"));
                            }
                            binding__ = map_.next_value()?;
                        }
                        GeneratedField::Thread => {
                            if thread__.is_some() {
                                return Err(serde::de::Error::duplicate_field("thread"));
                            }
                            thread__ = map_.next_value()?;
                        }
                        GeneratedField::Labour => {
                            if labour__.is_some() {
                                return Err(serde::de::Error::duplicate_field("labour"));
                            }
                            labour__ = map_.next_value()?;
                        }
                        GeneratedField::Dates => {
                            if dates__.is_some() {
                                return Err(serde::de::Error::duplicate_field("dates"));
                            }
                            dates__ = map_.next_value()?;
                        }
                        GeneratedField::Parcel => {
                            if parcel__.is_some() {
                                return Err(serde::de::Error::duplicate_field("parcel"));
                            }
                            parcel__ = map_.next_value()?;
                        }
                        GeneratedField::Price => {
                            if price__.is_some() {
                                return Err(serde::de::Error::duplicate_field("price"));
                            }
                            price__ = map_.next_value()?;
                        }
                        GeneratedField::Child => {
                            if child__.is_some() {
                                return Err(serde::de::Error::duplicate_field("child"));
                            }
                            child__ = map_.next_value()?;
                        }
                        GeneratedField::Paperwork => {
                            if paperwork__.is_some() {
                                return Err(serde::de::Error::duplicate_field("paperwork"));
                            }
                            paperwork__ = map_.next_value()?;
                        }
                        GeneratedField::Notices => {
                            if notices__.is_some() {
                                return Err(serde::de::Error::duplicate_field("notices"));
                            }
                            notices__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Workings => {
                            if workings__.is_some() {
                                return Err(serde::de::Error::duplicate_field("workings"));
                            }
                            workings__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Shelf => {
                            if shelf__.is_some() {
                                return Err(serde::de::Error::duplicate_field("shelf"));
                            }
                            shelf__ = map_.next_value()?;
                        }
                        GeneratedField::Sundries => {
                            if sundries__.is_some() {
                                return Err(serde::de::Error::duplicate_field("sundries"));
                            }
                            sundries__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Leaflet => {
                            if leaflet__.is_some() {
                                return Err(serde::de::Error::duplicate_field("leaflet"));
                            }
                            leaflet__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Quote {
                    quote_id: quote_id__,
                    catalogue_revision: catalogue_revision__.unwrap_or_default(),
                    expire_time: expire_time__,
                    token: token__,
                    understood: understood__,
                    layout: layout__,
                    fabrics: fabrics__.unwrap_or_default(),
                    binding: binding__,
                    thread: thread__,
                    labour: labour__,
                    dates: dates__,
                    parcel: parcel__,
                    price: price__,
                    child: child__,
                    paperwork: paperwork__,
                    notices: notices__.unwrap_or_default(),
                    workings: workings__.unwrap_or_default(),
                    shelf: shelf__,
                    sundries: sundries__.unwrap_or_default(),
                    leaflet: leaflet__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Quote", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for QuoteCheck {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.QuoteCheck", len)?;
        if true {
            struct_ser.serialize_field("valid", &self.valid)?;
        }
        if let Some(v) = self.fault.as_ref() {
            let v = TicketFault::try_from(*v)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", * v),
                ))?;
            struct_ser.serialize_field("fault", &v)?;
        }
        if true {
            struct_ser.serialize_field("summary", &self.summary)?;
        }
        if let Some(v) = self.quote_id.as_ref() {
            struct_ser.serialize_field("quoteId", v)?;
        }
        if let Some(v) = self.expire_time.as_ref() {
            struct_ser.serialize_field("expireTime", v)?;
        }
        if let Some(v) = self.total.as_ref() {
            struct_ser.serialize_field("total", v)?;
        }
        if let Some(v) = self.order_date.as_ref() {
            struct_ser.serialize_field("orderDate", v)?;
        }
        if let Some(v) = self.leave_date.as_ref() {
            struct_ser.serialize_field("leaveDate", v)?;
        }
        if let Some(v) = self.arrive_to.as_ref() {
            struct_ser.serialize_field("arriveTo", v)?;
        }
        if true {
            let v = Outcome::try_from(self.child_outcome)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.child_outcome),
                ))?;
            struct_ser.serialize_field("childOutcome", &v)?;
        }
        if let Some(v) = self.catalogue_revision.as_ref() {
            struct_ser.serialize_field("catalogueRevision", v)?;
        }
        if true {
            struct_ser.serialize_field("catalogueChanged", &self.catalogue_changed)?;
        }
        if let Some(v) = self.understood.as_ref() {
            struct_ser.serialize_field("understood", v)?;
        }
        if true {
            struct_ser.serialize_field("taxChanged", &self.tax_changed)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for QuoteCheck {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "valid",
            "fault",
            "summary",
            "quote_id",
            "quoteId",
            "expire_time",
            "expireTime",
            "total",
            "order_date",
            "orderDate",
            "leave_date",
            "leaveDate",
            "arrive_to",
            "arriveTo",
            "child_outcome",
            "childOutcome",
            "catalogue_revision",
            "catalogueRevision",
            "catalogue_changed",
            "catalogueChanged",
            "understood",
            "tax_changed",
            "taxChanged",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Valid,
            Fault,
            Summary,
            QuoteId,
            ExpireTime,
            Total,
            OrderDate,
            LeaveDate,
            ArriveTo,
            ChildOutcome,
            CatalogueRevision,
            CatalogueChanged,
            Understood,
            TaxChanged,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "valid" => Ok(GeneratedField::Valid),
                            "fault" => Ok(GeneratedField::Fault),
                            "summary" => Ok(GeneratedField::Summary),
                            "quoteId" | "quote_id" => Ok(GeneratedField::QuoteId),
                            "expireTime" | "expire_time" => {
                                Ok(GeneratedField::ExpireTime)
                            }
                            "total" => Ok(GeneratedField::Total),
                            "orderDate" | "order_date" => Ok(GeneratedField::OrderDate),
                            "leaveDate" | "leave_date" => Ok(GeneratedField::LeaveDate),
                            "arriveTo" | "arrive_to" => Ok(GeneratedField::ArriveTo),
                            "childOutcome" | "child_outcome" => {
                                Ok(GeneratedField::ChildOutcome)
                            }
                            "catalogueRevision" | "catalogue_revision" => {
                                Ok(GeneratedField::CatalogueRevision)
                            }
                            "catalogueChanged" | "catalogue_changed" => {
                                Ok(GeneratedField::CatalogueChanged)
                            }
                            "understood" => Ok(GeneratedField::Understood),
                            "taxChanged" | "tax_changed" => {
                                Ok(GeneratedField::TaxChanged)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = QuoteCheck;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.QuoteCheck")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<QuoteCheck, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut valid__ = None;
                let mut fault__ = None;
                let mut summary__ = None;
                let mut quote_id__ = None;
                let mut expire_time__ = None;
                let mut total__ = None;
                let mut order_date__ = None;
                let mut leave_date__ = None;
                let mut arrive_to__ = None;
                let mut child_outcome__ = None;
                let mut catalogue_revision__ = None;
                let mut catalogue_changed__ = None;
                let mut understood__ = None;
                let mut tax_changed__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Valid => {
                            if valid__.is_some() {
                                return Err(serde::de::Error::duplicate_field("valid"));
                            }
                            valid__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Fault => {
                            if fault__.is_some() {
                                return Err(serde::de::Error::duplicate_field("fault"));
                            }
                            fault__ = map_
                                .next_value::<::std::option::Option<TicketFault>>()?
                                .map(|x| x as i32);
                        }
                        GeneratedField::Summary => {
                            if summary__.is_some() {
                                return Err(serde::de::Error::duplicate_field("summary"));
                            }
                            summary__ = Some(map_.next_value()?);
                        }
                        GeneratedField::QuoteId => {
                            if quote_id__.is_some() {
                                return Err(serde::de::Error::duplicate_field("quoteId"));
                            }
                            quote_id__ = map_.next_value()?;
                        }
                        GeneratedField::ExpireTime => {
                            if expire_time__.is_some() {
                                return Err(serde::de::Error::duplicate_field("expireTime"));
                            }
                            expire_time__ = map_.next_value()?;
                        }
                        GeneratedField::Total => {
                            if total__.is_some() {
                                return Err(serde::de::Error::duplicate_field("total"));
                            }
                            total__ = map_.next_value()?;
                        }
                        GeneratedField::OrderDate => {
                            if order_date__.is_some() {
                                return Err(serde::de::Error::duplicate_field("orderDate"));
                            }
                            order_date__ = map_.next_value()?;
                        }
                        GeneratedField::LeaveDate => {
                            if leave_date__.is_some() {
                                return Err(serde::de::Error::duplicate_field("leaveDate"));
                            }
                            leave_date__ = map_.next_value()?;
                        }
                        GeneratedField::ArriveTo => {
                            if arrive_to__.is_some() {
                                return Err(serde::de::Error::duplicate_field("arriveTo"));
                            }
                            arrive_to__ = map_.next_value()?;
                        }
                        GeneratedField::ChildOutcome => {
                            if child_outcome__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("childOutcome"),
                                );
                            }
                            child_outcome__ = Some(map_.next_value::<Outcome>()? as i32);
                        }
                        GeneratedField::CatalogueRevision => {
                            if catalogue_revision__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("catalogueRevision"),
                                );
                            }
                            catalogue_revision__ = map_.next_value()?;
                        }
                        GeneratedField::CatalogueChanged => {
                            if catalogue_changed__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("catalogueChanged"),
                                );
                            }
                            catalogue_changed__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Understood => {
                            if understood__.is_some() {
                                return Err(serde::de::Error::duplicate_field("understood"));
                            }
                            understood__ = map_.next_value()?;
                        }
                        GeneratedField::TaxChanged => {
                            if tax_changed__.is_some() {
                                return Err(serde::de::Error::duplicate_field("taxChanged"));
                            }
                            tax_changed__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(QuoteCheck {
                    valid: valid__.unwrap_or_default(),
                    fault: fault__,
                    summary: summary__.unwrap_or_default(),
                    quote_id: quote_id__,
                    expire_time: expire_time__,
                    total: total__,
                    order_date: order_date__,
                    leave_date: leave_date__,
                    arrive_to: arrive_to__,
                    child_outcome: child_outcome__.unwrap_or_default(),
                    catalogue_revision: catalogue_revision__,
                    catalogue_changed: catalogue_changed__.unwrap_or_default(),
                    understood: understood__,
                    tax_changed: tax_changed__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.QuoteCheck", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for QuoteOutcome {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if self.outcome.is_some() {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.QuoteOutcome", len)?;
        if let Some(v) = self.outcome.as_ref() {
            match v {
                quote_outcome::Outcome::Quote(v) => {
                    struct_ser.serialize_field("quote", v)?;
                }
                quote_outcome::Outcome::Refusal(v) => {
                    struct_ser.serialize_field("refusal", v)?;
                }
            }
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for QuoteOutcome {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["quote", "refusal"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Quote,
            Refusal,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "quote" => Ok(GeneratedField::Quote),
                            "refusal" => Ok(GeneratedField::Refusal),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = QuoteOutcome;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.QuoteOutcome")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<QuoteOutcome, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut outcome__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Quote => {
                            if outcome__.is_some() {
                                return Err(serde::de::Error::duplicate_field("quote"));
                            }
                            outcome__ = map_
                                .next_value::<::std::option::Option<_>>()?
                                .map(quote_outcome::Outcome::Quote);
                        }
                        GeneratedField::Refusal => {
                            if outcome__.is_some() {
                                return Err(serde::de::Error::duplicate_field("refusal"));
                            }
                            outcome__ = map_
                                .next_value::<::std::option::Option<_>>()?
                                .map(quote_outcome::Outcome::Refusal);
                        }
                    }
                }
                Ok(QuoteOutcome { outcome: outcome__ })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.QuoteOutcome", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Refusal {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Refusal", len)?;
        if true {
            struct_ser.serialize_field("reason", &self.reason)?;
        }
        if true {
            struct_ser.serialize_field("detail", &self.detail)?;
        }
        if true {
            struct_ser.serialize_field("violations", &self.violations)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Refusal {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["reason", "detail", "violations"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Reason,
            Detail,
            Violations,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "reason" => Ok(GeneratedField::Reason),
                            "detail" => Ok(GeneratedField::Detail),
                            "violations" => Ok(GeneratedField::Violations),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Refusal;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Refusal")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Refusal, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut reason__ = None;
                let mut detail__ = None;
                let mut violations__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Reason => {
                            if reason__.is_some() {
                                return Err(serde::de::Error::duplicate_field("reason"));
                            }
                            reason__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Detail => {
                            if detail__.is_some() {
                                return Err(serde::de::Error::duplicate_field("detail"));
                            }
                            detail__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Violations => {
                            if violations__.is_some() {
                                return Err(serde::de::Error::duplicate_field("violations"));
                            }
                            violations__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Refusal {
                    reason: reason__.unwrap_or_default(),
                    detail: detail__.unwrap_or_default(),
                    violations: violations__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Refusal", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for RowKind {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "ROW_KIND_UNSPECIFIED",
            Self::PlainOneWay => "ROW_KIND_PLAIN_ONE_WAY",
            Self::PlainTwoWay => "ROW_KIND_PLAIN_TWO_WAY",
            Self::Facing => "ROW_KIND_FACING",
            Self::Sideways => "ROW_KIND_SIDEWAYS",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for RowKind {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "ROW_KIND_UNSPECIFIED",
            "ROW_KIND_PLAIN_ONE_WAY",
            "ROW_KIND_PLAIN_TWO_WAY",
            "ROW_KIND_FACING",
            "ROW_KIND_SIDEWAYS",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = RowKind;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "ROW_KIND_UNSPECIFIED" => Ok(RowKind::Unspecified),
                    "ROW_KIND_PLAIN_ONE_WAY" => Ok(RowKind::PlainOneWay),
                    "ROW_KIND_PLAIN_TWO_WAY" => Ok(RowKind::PlainTwoWay),
                    "ROW_KIND_FACING" => Ok(RowKind::Facing),
                    "ROW_KIND_SIDEWAYS" => Ok(RowKind::Sideways),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for Rule {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "RULE_UNSPECIFIED",
            Self::Repeat => "RULE_REPEAT",
            Self::MirrorEnds => "RULE_MIRROR_ENDS",
            Self::MirrorCentre => "RULE_MIRROR_CENTRE",
            Self::Listed => "RULE_LISTED",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for Rule {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "RULE_UNSPECIFIED",
            "RULE_REPEAT",
            "RULE_MIRROR_ENDS",
            "RULE_MIRROR_CENTRE",
            "RULE_LISTED",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = Rule;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "RULE_UNSPECIFIED" => Ok(Rule::Unspecified),
                    "RULE_REPEAT" => Ok(Rule::Repeat),
                    "RULE_MIRROR_ENDS" => Ok(Rule::MirrorEnds),
                    "RULE_MIRROR_CENTRE" => Ok(Rule::MirrorCentre),
                    "RULE_LISTED" => Ok(Rule::Listed),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for RuleBasis {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "RULE_BASIS_UNSPECIFIED",
            Self::Law => "RULE_BASIS_LAW",
            Self::Toy => "RULE_BASIS_TOY",
            Self::Analogy => "RULE_BASIS_ANALOGY",
            Self::Guidance => "RULE_BASIS_GUIDANCE",
            Self::Shop => "RULE_BASIS_SHOP",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for RuleBasis {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "RULE_BASIS_UNSPECIFIED",
            "RULE_BASIS_LAW",
            "RULE_BASIS_TOY",
            "RULE_BASIS_ANALOGY",
            "RULE_BASIS_GUIDANCE",
            "RULE_BASIS_SHOP",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = RuleBasis;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "RULE_BASIS_UNSPECIFIED" => Ok(RuleBasis::Unspecified),
                    "RULE_BASIS_LAW" => Ok(RuleBasis::Law),
                    "RULE_BASIS_TOY" => Ok(RuleBasis::Toy),
                    "RULE_BASIS_ANALOGY" => Ok(RuleBasis::Analogy),
                    "RULE_BASIS_GUIDANCE" => Ok(RuleBasis::Guidance),
                    "RULE_BASIS_SHOP" => Ok(RuleBasis::Shop),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for SeamKind {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "SEAM_KIND_UNSPECIFIED",
            Self::BindingAlone => "SEAM_KIND_BINDING_ALONE",
            Self::BindingOverPennants => "SEAM_KIND_BINDING_OVER_PENNANTS",
            Self::Sides => "SEAM_KIND_SIDES",
            Self::Letters => "SEAM_KIND_LETTERS",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for SeamKind {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "SEAM_KIND_UNSPECIFIED",
            "SEAM_KIND_BINDING_ALONE",
            "SEAM_KIND_BINDING_OVER_PENNANTS",
            "SEAM_KIND_SIDES",
            "SEAM_KIND_LETTERS",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = SeamKind;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "SEAM_KIND_UNSPECIFIED" => Ok(SeamKind::Unspecified),
                    "SEAM_KIND_BINDING_ALONE" => Ok(SeamKind::BindingAlone),
                    "SEAM_KIND_BINDING_OVER_PENNANTS" => {
                        Ok(SeamKind::BindingOverPennants)
                    }
                    "SEAM_KIND_SIDES" => Ok(SeamKind::Sides),
                    "SEAM_KIND_LETTERS" => Ok(SeamKind::Letters),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for SeamUse {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.SeamUse", len)?;
        if true {
            let v = SeamKind::try_from(self.kind)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.kind),
                ))?;
            struct_ser.serialize_field("kind", &v)?;
        }
        if true {
            struct_ser.serialize_field("seamMm", &self.seam_mm)?;
        }
        if true {
            struct_ser.serialize_field("thicknessMm", &self.thickness_mm)?;
        }
        if true {
            struct_ser.serialize_field("threadMm", &self.thread_mm)?;
        }
        if true {
            #[allow(clippy::needless_borrow)]
            #[allow(clippy::needless_borrows_for_generic_args)]
            struct_ser
                .serialize_field(
                    "stitchCount",
                    ToString::to_string(&self.stitch_count).as_str(),
                )?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for SeamUse {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "kind",
            "seam_mm",
            "seamMm",
            "thickness_mm",
            "thicknessMm",
            "thread_mm",
            "threadMm",
            "stitch_count",
            "stitchCount",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Kind,
            SeamMm,
            ThicknessMm,
            ThreadMm,
            StitchCount,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "kind" => Ok(GeneratedField::Kind),
                            "seamMm" | "seam_mm" => Ok(GeneratedField::SeamMm),
                            "thicknessMm" | "thickness_mm" => {
                                Ok(GeneratedField::ThicknessMm)
                            }
                            "threadMm" | "thread_mm" => Ok(GeneratedField::ThreadMm),
                            "stitchCount" | "stitch_count" => {
                                Ok(GeneratedField::StitchCount)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = SeamUse;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.SeamUse")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<SeamUse, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut kind__ = None;
                let mut seam_mm__ = None;
                let mut thickness_mm__ = None;
                let mut thread_mm__ = None;
                let mut stitch_count__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Kind => {
                            if kind__.is_some() {
                                return Err(serde::de::Error::duplicate_field("kind"));
                            }
                            kind__ = Some(map_.next_value::<SeamKind>()? as i32);
                        }
                        GeneratedField::SeamMm => {
                            if seam_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("seamMm"));
                            }
                            seam_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::ThicknessMm => {
                            if thickness_mm__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("thicknessMm"),
                                );
                            }
                            thickness_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::ThreadMm => {
                            if thread_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("threadMm"));
                            }
                            thread_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::StitchCount => {
                            if stitch_count__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("stitchCount"),
                                );
                            }
                            stitch_count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                    }
                }
                Ok(SeamUse {
                    kind: kind__.unwrap_or_default(),
                    seam_mm: seam_mm__.unwrap_or_default(),
                    thickness_mm: thickness_mm__.unwrap_or_default(),
                    thread_mm: thread_mm__.unwrap_or_default(),
                    stitch_count: stitch_count__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.SeamUse", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Shape {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "SHAPE_UNSPECIFIED",
            Self::Triangle => "SHAPE_TRIANGLE",
            Self::Blunt => "SHAPE_BLUNT",
            Self::Swallowtail => "SHAPE_SWALLOWTAIL",
            Self::Shield => "SHAPE_SHIELD",
            Self::Scallop => "SHAPE_SCALLOP",
            Self::Rectangle => "SHAPE_RECTANGLE",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for Shape {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "SHAPE_UNSPECIFIED",
            "SHAPE_TRIANGLE",
            "SHAPE_BLUNT",
            "SHAPE_SWALLOWTAIL",
            "SHAPE_SHIELD",
            "SHAPE_SCALLOP",
            "SHAPE_RECTANGLE",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = Shape;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "SHAPE_UNSPECIFIED" => Ok(Shape::Unspecified),
                    "SHAPE_TRIANGLE" => Ok(Shape::Triangle),
                    "SHAPE_BLUNT" => Ok(Shape::Blunt),
                    "SHAPE_SWALLOWTAIL" => Ok(Shape::Swallowtail),
                    "SHAPE_SHIELD" => Ok(Shape::Shield),
                    "SHAPE_SCALLOP" => Ok(Shape::Scallop),
                    "SHAPE_RECTANGLE" => Ok(Shape::Rectangle),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for Shelf {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Shelf", len)?;
        if true {
            struct_ser.serialize_field("available", &self.available)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Shelf {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["available"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Available,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "available" => Ok(GeneratedField::Available),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Shelf;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Shelf")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Shelf, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut available__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Available => {
                            if available__.is_some() {
                                return Err(serde::de::Error::duplicate_field("available"));
                            }
                            available__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Shelf {
                    available: available__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Shelf", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for SizeAt {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "SIZE_AT_UNSPECIFIED",
            Self::TopEdge => "SIZE_AT_TOP_EDGE",
            Self::BindingEdge => "SIZE_AT_BINDING_EDGE",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for SizeAt {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "SIZE_AT_UNSPECIFIED",
            "SIZE_AT_TOP_EDGE",
            "SIZE_AT_BINDING_EDGE",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = SizeAt;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "SIZE_AT_UNSPECIFIED" => Ok(SizeAt::Unspecified),
                    "SIZE_AT_TOP_EDGE" => Ok(SizeAt::TopEdge),
                    "SIZE_AT_BINDING_EDGE" => Ok(SizeAt::BindingEdge),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for StraightBinding {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.StraightBinding", len)?;
        if true {
            struct_ser.serialize_field("fabricCode", &self.fabric_code)?;
        }
        if true {
            struct_ser.serialize_field("stripCount", &self.strip_count)?;
        }
        if true {
            struct_ser.serialize_field("rawMm", &self.raw_mm)?;
        }
        if true {
            struct_ser.serialize_field("chargedMm", &self.charged_mm)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for StraightBinding {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "fabric_code",
            "fabricCode",
            "strip_count",
            "stripCount",
            "raw_mm",
            "rawMm",
            "charged_mm",
            "chargedMm",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            FabricCode,
            StripCount,
            RawMm,
            ChargedMm,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "fabricCode" | "fabric_code" => {
                                Ok(GeneratedField::FabricCode)
                            }
                            "stripCount" | "strip_count" => {
                                Ok(GeneratedField::StripCount)
                            }
                            "rawMm" | "raw_mm" => Ok(GeneratedField::RawMm),
                            "chargedMm" | "charged_mm" => Ok(GeneratedField::ChargedMm),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = StraightBinding;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.StraightBinding")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<StraightBinding, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut fabric_code__ = None;
                let mut strip_count__ = None;
                let mut raw_mm__ = None;
                let mut charged_mm__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::FabricCode => {
                            if fabric_code__.is_some() {
                                return Err(serde::de::Error::duplicate_field("fabricCode"));
                            }
                            fabric_code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::StripCount => {
                            if strip_count__.is_some() {
                                return Err(serde::de::Error::duplicate_field("stripCount"));
                            }
                            strip_count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::RawMm => {
                            if raw_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("rawMm"));
                            }
                            raw_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::ChargedMm => {
                            if charged_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("chargedMm"));
                            }
                            charged_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                    }
                }
                Ok(StraightBinding {
                    fabric_code: fabric_code__.unwrap_or_default(),
                    strip_count: strip_count__.unwrap_or_default(),
                    raw_mm: raw_mm__.unwrap_or_default(),
                    charged_mm: charged_mm__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.StraightBinding", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for SundryUse {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.SundryUse", len)?;
        if true {
            struct_ser.serialize_field("code", &self.code)?;
        }
        if true {
            struct_ser.serialize_field("name", &self.name)?;
        }
        if true {
            struct_ser.serialize_field("count", &self.count)?;
        }
        if true {
            struct_ser.serialize_field("packing", &self.packing)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for SundryUse {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["code", "name", "count", "packing"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Code,
            Name,
            Count,
            Packing,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "code" => Ok(GeneratedField::Code),
                            "name" => Ok(GeneratedField::Name),
                            "count" => Ok(GeneratedField::Count),
                            "packing" => Ok(GeneratedField::Packing),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = SundryUse;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.SundryUse")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<SundryUse, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut code__ = None;
                let mut name__ = None;
                let mut count__ = None;
                let mut packing__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Code => {
                            if code__.is_some() {
                                return Err(serde::de::Error::duplicate_field("code"));
                            }
                            code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Name => {
                            if name__.is_some() {
                                return Err(serde::de::Error::duplicate_field("name"));
                            }
                            name__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Count => {
                            if count__.is_some() {
                                return Err(serde::de::Error::duplicate_field("count"));
                            }
                            count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Packing => {
                            if packing__.is_some() {
                                return Err(serde::de::Error::duplicate_field("packing"));
                            }
                            packing__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(SundryUse {
                    code: code__.unwrap_or_default(),
                    name: name__.unwrap_or_default(),
                    count: count__.unwrap_or_default(),
                    packing: packing__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.SundryUse", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Surplus {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if self.basis.is_some() {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Surplus", len)?;
        if let Some(v) = self.basis.as_ref() {
            match v {
                surplus::Basis::MarginPercent(v) => {
                    struct_ser.serialize_field("marginPercent", v)?;
                }
                surplus::Basis::MarkupPercent(v) => {
                    struct_ser.serialize_field("markupPercent", v)?;
                }
            }
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Surplus {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "margin_percent",
            "marginPercent",
            "markup_percent",
            "markupPercent",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            MarginPercent,
            MarkupPercent,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "marginPercent" | "margin_percent" => {
                                Ok(GeneratedField::MarginPercent)
                            }
                            "markupPercent" | "markup_percent" => {
                                Ok(GeneratedField::MarkupPercent)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Surplus;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Surplus")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Surplus, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut basis__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::MarginPercent => {
                            if basis__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("marginPercent"),
                                );
                            }
                            basis__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| surplus::Basis::MarginPercent(x.0));
                        }
                        GeneratedField::MarkupPercent => {
                            if basis__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("markupPercent"),
                                );
                            }
                            basis__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| surplus::Basis::MarkupPercent(x.0));
                        }
                    }
                }
                Ok(Surplus { basis: basis__ })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Surplus", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Tax {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Tax", len)?;
        if true {
            struct_ser.serialize_field("name", &self.name)?;
        }
        if true {
            struct_ser.serialize_field("ratePercent", &self.rate_percent)?;
        }
        if let Some(v) = self.included.as_ref() {
            struct_ser.serialize_field("included", v)?;
        }
        if let Some(v) = self.net.as_ref() {
            struct_ser.serialize_field("net", v)?;
        }
        if true {
            struct_ser.serialize_field("linesInclude", &self.lines_include)?;
        }
        if true {
            let v = TaxLevel::try_from(self.level)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.level),
                ))?;
            struct_ser.serialize_field("level", &v)?;
        }
        if true {
            let v = TaxRounding::try_from(self.rounding)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.rounding),
                ))?;
            struct_ser.serialize_field("rounding", &v)?;
        }
        if true {
            struct_ser.serialize_field("pointDate", &self.point_date)?;
        }
        if true {
            struct_ser.serialize_field("registration", &self.registration)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Tax {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "name",
            "rate_percent",
            "ratePercent",
            "included",
            "net",
            "lines_include",
            "linesInclude",
            "level",
            "rounding",
            "point_date",
            "pointDate",
            "registration",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Name,
            RatePercent,
            Included,
            Net,
            LinesInclude,
            Level,
            Rounding,
            PointDate,
            Registration,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "name" => Ok(GeneratedField::Name),
                            "ratePercent" | "rate_percent" => {
                                Ok(GeneratedField::RatePercent)
                            }
                            "included" => Ok(GeneratedField::Included),
                            "net" => Ok(GeneratedField::Net),
                            "linesInclude" | "lines_include" => {
                                Ok(GeneratedField::LinesInclude)
                            }
                            "level" => Ok(GeneratedField::Level),
                            "rounding" => Ok(GeneratedField::Rounding),
                            "pointDate" | "point_date" => Ok(GeneratedField::PointDate),
                            "registration" => Ok(GeneratedField::Registration),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Tax;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Tax")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Tax, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut name__ = None;
                let mut rate_percent__ = None;
                let mut included__ = None;
                let mut net__ = None;
                let mut lines_include__ = None;
                let mut level__ = None;
                let mut rounding__ = None;
                let mut point_date__ = None;
                let mut registration__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Name => {
                            if name__.is_some() {
                                return Err(serde::de::Error::duplicate_field("name"));
                            }
                            name__ = Some(map_.next_value()?);
                        }
                        GeneratedField::RatePercent => {
                            if rate_percent__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("ratePercent"),
                                );
                            }
                            rate_percent__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Included => {
                            if included__.is_some() {
                                return Err(serde::de::Error::duplicate_field("included"));
                            }
                            included__ = map_.next_value()?;
                        }
                        GeneratedField::Net => {
                            if net__.is_some() {
                                return Err(serde::de::Error::duplicate_field("net"));
                            }
                            net__ = map_.next_value()?;
                        }
                        GeneratedField::LinesInclude => {
                            if lines_include__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("linesInclude"),
                                );
                            }
                            lines_include__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Level => {
                            if level__.is_some() {
                                return Err(serde::de::Error::duplicate_field("level"));
                            }
                            level__ = Some(map_.next_value::<TaxLevel>()? as i32);
                        }
                        GeneratedField::Rounding => {
                            if rounding__.is_some() {
                                return Err(serde::de::Error::duplicate_field("rounding"));
                            }
                            rounding__ = Some(map_.next_value::<TaxRounding>()? as i32);
                        }
                        GeneratedField::PointDate => {
                            if point_date__.is_some() {
                                return Err(serde::de::Error::duplicate_field("pointDate"));
                            }
                            point_date__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Registration => {
                            if registration__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("registration"),
                                );
                            }
                            registration__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Tax {
                    name: name__.unwrap_or_default(),
                    rate_percent: rate_percent__.unwrap_or_default(),
                    included: included__,
                    net: net__,
                    lines_include: lines_include__.unwrap_or_default(),
                    level: level__.unwrap_or_default(),
                    rounding: rounding__.unwrap_or_default(),
                    point_date: point_date__.unwrap_or_default(),
                    registration: registration__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Tax", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for TaxLevel {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "TAX_LEVEL_UNSPECIFIED",
            Self::Document => "TAX_LEVEL_DOCUMENT",
            Self::Line => "TAX_LEVEL_LINE",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for TaxLevel {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "TAX_LEVEL_UNSPECIFIED",
            "TAX_LEVEL_DOCUMENT",
            "TAX_LEVEL_LINE",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = TaxLevel;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "TAX_LEVEL_UNSPECIFIED" => Ok(TaxLevel::Unspecified),
                    "TAX_LEVEL_DOCUMENT" => Ok(TaxLevel::Document),
                    "TAX_LEVEL_LINE" => Ok(TaxLevel::Line),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for TaxRounding {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "TAX_ROUNDING_UNSPECIFIED",
            Self::HalfUp => "TAX_ROUNDING_HALF_UP",
            Self::HalfEven => "TAX_ROUNDING_HALF_EVEN",
            Self::Down => "TAX_ROUNDING_DOWN",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for TaxRounding {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "TAX_ROUNDING_UNSPECIFIED",
            "TAX_ROUNDING_HALF_UP",
            "TAX_ROUNDING_HALF_EVEN",
            "TAX_ROUNDING_DOWN",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = TaxRounding;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "TAX_ROUNDING_UNSPECIFIED" => Ok(TaxRounding::Unspecified),
                    "TAX_ROUNDING_HALF_UP" => Ok(TaxRounding::HalfUp),
                    "TAX_ROUNDING_HALF_EVEN" => Ok(TaxRounding::HalfEven),
                    "TAX_ROUNDING_DOWN" => Ok(TaxRounding::Down),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for ThreadUse {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.ThreadUse", len)?;
        if true {
            struct_ser.serialize_field("lengthMm", &self.length_mm)?;
        }
        if true {
            struct_ser.serialize_field("seams", &self.seams)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for ThreadUse {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["length_mm", "lengthMm", "seams"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            LengthMm,
            Seams,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "lengthMm" | "length_mm" => Ok(GeneratedField::LengthMm),
                            "seams" => Ok(GeneratedField::Seams),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = ThreadUse;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.ThreadUse")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<ThreadUse, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut length_mm__ = None;
                let mut seams__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::LengthMm => {
                            if length_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("lengthMm"));
                            }
                            length_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Seams => {
                            if seams__.is_some() {
                                return Err(serde::de::Error::duplicate_field("seams"));
                            }
                            seams__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(ThreadUse {
                    length_mm: length_mm__.unwrap_or_default(),
                    seams: seams__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.ThreadUse", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Ticket {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Ticket", len)?;
        if true {
            struct_ser.serialize_field("token", &self.token)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Ticket {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["token"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Token,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "token" => Ok(GeneratedField::Token),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Ticket;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Ticket")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Ticket, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut token__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Token => {
                            if token__.is_some() {
                                return Err(serde::de::Error::duplicate_field("token"));
                            }
                            token__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Ticket {
                    token: token__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Ticket", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for TicketFault {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "TICKET_FAULT_UNSPECIFIED",
            Self::NotOurs => "TICKET_FAULT_NOT_OURS",
            Self::Expired => "TICKET_FAULT_EXPIRED",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for TicketFault {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "TICKET_FAULT_UNSPECIFIED",
            "TICKET_FAULT_NOT_OURS",
            "TICKET_FAULT_EXPIRED",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = TicketFault;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "TICKET_FAULT_UNSPECIFIED" => Ok(TicketFault::Unspecified),
                    "TICKET_FAULT_NOT_OURS" => Ok(TicketFault::NotOurs),
                    "TICKET_FAULT_EXPIRED" => Ok(TicketFault::Expired),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for Trimming {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Trimming", len)?;
        if true {
            struct_ser.serialize_field("code", &self.code)?;
        }
        if let Some(v) = self.per_pennant.as_ref() {
            struct_ser.serialize_field("perPennant", v)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Trimming {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["code", "per_pennant", "perPennant"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Code,
            PerPennant,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "code" => Ok(GeneratedField::Code),
                            "perPennant" | "per_pennant" => {
                                Ok(GeneratedField::PerPennant)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Trimming;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Trimming")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Trimming, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut code__ = None;
                let mut per_pennant__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Code => {
                            if code__.is_some() {
                                return Err(serde::de::Error::duplicate_field("code"));
                            }
                            code__ = Some(map_.next_value()?);
                        }
                        GeneratedField::PerPennant => {
                            if per_pennant__.is_some() {
                                return Err(serde::de::Error::duplicate_field("perPennant"));
                            }
                            per_pennant__ = map_
                                .next_value::<
                                    ::std::option::Option<
                                        ::pbjson::private::NumberDeserialize<_>,
                                    >,
                                >()?
                                .map(|x| x.0);
                        }
                    }
                }
                Ok(Trimming {
                    code: code__.unwrap_or_default(),
                    per_pennant: per_pennant__,
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.Trimming", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for View {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "VIEW_UNSPECIFIED",
            Self::Buyer => "VIEW_BUYER",
            Self::Shop => "VIEW_SHOP",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for View {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["VIEW_UNSPECIFIED", "VIEW_BUYER", "VIEW_SHOP"];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = View;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "VIEW_UNSPECIFIED" => Ok(View::Unspecified),
                    "VIEW_BUYER" => Ok(View::Buyer),
                    "VIEW_SHOP" => Ok(View::Shop),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for WayKind {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "WAY_KIND_UNSPECIFIED",
            Self::Rush => "WAY_KIND_RUSH",
            Self::FewerPennants => "WAY_KIND_FEWER_PENNANTS",
            Self::Plainer => "WAY_KIND_PLAINER",
            Self::OtherService => "WAY_KIND_OTHER_SERVICE",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for WayKind {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "WAY_KIND_UNSPECIFIED",
            "WAY_KIND_RUSH",
            "WAY_KIND_FEWER_PENNANTS",
            "WAY_KIND_PLAINER",
            "WAY_KIND_OTHER_SERVICE",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = WayKind;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "WAY_KIND_UNSPECIFIED" => Ok(WayKind::Unspecified),
                    "WAY_KIND_RUSH" => Ok(WayKind::Rush),
                    "WAY_KIND_FEWER_PENNANTS" => Ok(WayKind::FewerPennants),
                    "WAY_KIND_PLAINER" => Ok(WayKind::Plainer),
                    "WAY_KIND_OTHER_SERVICE" => Ok(WayKind::OtherService),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for WayToKeep {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.WayToKeep", len)?;
        if true {
            let v = WayKind::try_from(self.kind)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.kind),
                ))?;
            struct_ser.serialize_field("kind", &v)?;
        }
        if true {
            struct_ser.serialize_field("text", &self.text)?;
        }
        if true {
            struct_ser.serialize_field("pennantCount", &self.pennant_count)?;
        }
        if true {
            let v = Construction::try_from(self.construction)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.construction),
                ))?;
            struct_ser.serialize_field("construction", &v)?;
        }
        if true {
            struct_ser.serialize_field("leaveDate", &self.leave_date)?;
        }
        if true {
            struct_ser.serialize_field("arriveTo", &self.arrive_to)?;
        }
        if let Some(v) = self.total.as_ref() {
            struct_ser.serialize_field("total", v)?;
        }
        if true {
            struct_ser.serialize_field("gapMm", &self.gap_mm)?;
        }
        if true {
            struct_ser.serialize_field("tailMm", &self.tail_mm)?;
        }
        if true {
            struct_ser.serialize_field("serviceCode", &self.service_code)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for WayToKeep {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "kind",
            "text",
            "pennant_count",
            "pennantCount",
            "construction",
            "leave_date",
            "leaveDate",
            "arrive_to",
            "arriveTo",
            "total",
            "gap_mm",
            "gapMm",
            "tail_mm",
            "tailMm",
            "service_code",
            "serviceCode",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Kind,
            Text,
            PennantCount,
            Construction,
            LeaveDate,
            ArriveTo,
            Total,
            GapMm,
            TailMm,
            ServiceCode,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "kind" => Ok(GeneratedField::Kind),
                            "text" => Ok(GeneratedField::Text),
                            "pennantCount" | "pennant_count" => {
                                Ok(GeneratedField::PennantCount)
                            }
                            "construction" => Ok(GeneratedField::Construction),
                            "leaveDate" | "leave_date" => Ok(GeneratedField::LeaveDate),
                            "arriveTo" | "arrive_to" => Ok(GeneratedField::ArriveTo),
                            "total" => Ok(GeneratedField::Total),
                            "gapMm" | "gap_mm" => Ok(GeneratedField::GapMm),
                            "tailMm" | "tail_mm" => Ok(GeneratedField::TailMm),
                            "serviceCode" | "service_code" => {
                                Ok(GeneratedField::ServiceCode)
                            }
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = WayToKeep;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.WayToKeep")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<WayToKeep, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut kind__ = None;
                let mut text__ = None;
                let mut pennant_count__ = None;
                let mut construction__ = None;
                let mut leave_date__ = None;
                let mut arrive_to__ = None;
                let mut total__ = None;
                let mut gap_mm__ = None;
                let mut tail_mm__ = None;
                let mut service_code__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Kind => {
                            if kind__.is_some() {
                                return Err(serde::de::Error::duplicate_field("kind"));
                            }
                            kind__ = Some(map_.next_value::<WayKind>()? as i32);
                        }
                        GeneratedField::Text => {
                            if text__.is_some() {
                                return Err(serde::de::Error::duplicate_field("text"));
                            }
                            text__ = Some(map_.next_value()?);
                        }
                        GeneratedField::PennantCount => {
                            if pennant_count__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("pennantCount"),
                                );
                            }
                            pennant_count__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::Construction => {
                            if construction__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("construction"),
                                );
                            }
                            construction__ = Some(
                                map_.next_value::<Construction>()? as i32,
                            );
                        }
                        GeneratedField::LeaveDate => {
                            if leave_date__.is_some() {
                                return Err(serde::de::Error::duplicate_field("leaveDate"));
                            }
                            leave_date__ = Some(map_.next_value()?);
                        }
                        GeneratedField::ArriveTo => {
                            if arrive_to__.is_some() {
                                return Err(serde::de::Error::duplicate_field("arriveTo"));
                            }
                            arrive_to__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Total => {
                            if total__.is_some() {
                                return Err(serde::de::Error::duplicate_field("total"));
                            }
                            total__ = map_.next_value()?;
                        }
                        GeneratedField::GapMm => {
                            if gap_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("gapMm"));
                            }
                            gap_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::TailMm => {
                            if tail_mm__.is_some() {
                                return Err(serde::de::Error::duplicate_field("tailMm"));
                            }
                            tail_mm__ = Some(
                                map_
                                    .next_value::<::pbjson::private::NumberDeserialize<_>>()?
                                    .0,
                            );
                        }
                        GeneratedField::ServiceCode => {
                            if service_code__.is_some() {
                                return Err(
                                    serde::de::Error::duplicate_field("serviceCode"),
                                );
                            }
                            service_code__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(WayToKeep {
                    kind: kind__.unwrap_or_default(),
                    text: text__.unwrap_or_default(),
                    pennant_count: pennant_count__.unwrap_or_default(),
                    construction: construction__.unwrap_or_default(),
                    leave_date: leave_date__.unwrap_or_default(),
                    arrive_to: arrive_to__.unwrap_or_default(),
                    total: total__,
                    gap_mm: gap_mm__.unwrap_or_default(),
                    tail_mm: tail_mm__.unwrap_or_default(),
                    service_code: service_code__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.WayToKeep", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for Who {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "WHO_UNSPECIFIED",
            Self::NoChild => "WHO_NO_CHILD",
            Self::Child => "WHO_CHILD",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for Who {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["WHO_UNSPECIFIED", "WHO_NO_CHILD", "WHO_CHILD"];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = Who;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "WHO_UNSPECIFIED" => Ok(Who::Unspecified),
                    "WHO_NO_CHILD" => Ok(Who::NoChild),
                    "WHO_CHILD" => Ok(Who::Child),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for Withdrawal {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer
            .serialize_struct("pennantry.v1.Withdrawal", len)?;
        if true {
            let v = WithdrawalRight::try_from(self.right)
                .map_err(|_| serde::ser::Error::custom(
                    format!("Invalid variant {}", self.right),
                ))?;
            struct_ser.serialize_field("right", &v)?;
        }
        if true {
            struct_ser.serialize_field("reason", &self.reason)?;
        }
        if true {
            struct_ser.serialize_field("source", &self.source)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Withdrawal {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &["right", "reason", "source"];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Right,
            Reason,
            Source,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "right" => Ok(GeneratedField::Right),
                            "reason" => Ok(GeneratedField::Reason),
                            "source" => Ok(GeneratedField::Source),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Withdrawal;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Withdrawal")
            }
            fn visit_map<V>(
                self,
                mut map_: V,
            ) -> std::result::Result<Withdrawal, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut right__ = None;
                let mut reason__ = None;
                let mut source__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Right => {
                            if right__.is_some() {
                                return Err(serde::de::Error::duplicate_field("right"));
                            }
                            right__ = Some(map_.next_value::<WithdrawalRight>()? as i32);
                        }
                        GeneratedField::Reason => {
                            if reason__.is_some() {
                                return Err(serde::de::Error::duplicate_field("reason"));
                            }
                            reason__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Source => {
                            if source__.is_some() {
                                return Err(serde::de::Error::duplicate_field("source"));
                            }
                            source__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Withdrawal {
                    right: right__.unwrap_or_default(),
                    reason: reason__.unwrap_or_default(),
                    source: source__.unwrap_or_default(),
                })
            }
        }
        deserializer
            .deserialize_struct("pennantry.v1.Withdrawal", FIELDS, GeneratedVisitor)
    }
}
impl serde::Serialize for WithdrawalRight {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        let variant = match self {
            Self::Unspecified => "WITHDRAWAL_RIGHT_UNSPECIFIED",
            Self::Excluded => "WITHDRAWAL_RIGHT_EXCLUDED",
            Self::Applies => "WITHDRAWAL_RIGHT_APPLIES",
        };
        serializer.serialize_str(variant)
    }
}
impl<'de> serde::Deserialize<'de> for WithdrawalRight {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "WITHDRAWAL_RIGHT_UNSPECIFIED",
            "WITHDRAWAL_RIGHT_EXCLUDED",
            "WITHDRAWAL_RIGHT_APPLIES",
        ];
        struct GeneratedVisitor;
        impl serde::de::Visitor<'_> for GeneratedVisitor {
            type Value = WithdrawalRight;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                write!(formatter, "expected one of: {:?}", & FIELDS)
            }
            fn visit_i64<E>(self, v: i64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Signed(v),
                            &self,
                        )
                    })
            }
            fn visit_u64<E>(self, v: u64) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                i32::try_from(v)
                    .ok()
                    .and_then(|x| x.try_into().ok())
                    .ok_or_else(|| {
                        serde::de::Error::invalid_value(
                            serde::de::Unexpected::Unsigned(v),
                            &self,
                        )
                    })
            }
            fn visit_str<E>(self, value: &str) -> std::result::Result<Self::Value, E>
            where
                E: serde::de::Error,
            {
                match value {
                    "WITHDRAWAL_RIGHT_UNSPECIFIED" => Ok(WithdrawalRight::Unspecified),
                    "WITHDRAWAL_RIGHT_EXCLUDED" => Ok(WithdrawalRight::Excluded),
                    "WITHDRAWAL_RIGHT_APPLIES" => Ok(WithdrawalRight::Applies),
                    _ => Err(serde::de::Error::unknown_variant(value, FIELDS)),
                }
            }
        }
        deserializer.deserialize_any(GeneratedVisitor)
    }
}
impl serde::Serialize for Working {
    #[allow(deprecated)]
    fn serialize<S>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error>
    where
        S: serde::Serializer,
    {
        use serde::ser::SerializeStruct;
        let mut len = 0;
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        if true {
            len += 1;
        }
        let mut struct_ser = serializer.serialize_struct("pennantry.v1.Working", len)?;
        if true {
            struct_ser.serialize_field("name", &self.name)?;
        }
        if true {
            struct_ser.serialize_field("formula", &self.formula)?;
        }
        if true {
            struct_ser.serialize_field("value", &self.value)?;
        }
        if true {
            struct_ser.serialize_field("unit", &self.unit)?;
        }
        if true {
            struct_ser.serialize_field("rounding", &self.rounding)?;
        }
        if true {
            struct_ser.serialize_field("source", &self.source)?;
        }
        struct_ser.end()
    }
}
impl<'de> serde::Deserialize<'de> for Working {
    #[allow(deprecated)]
    fn deserialize<D>(deserializer: D) -> std::result::Result<Self, D::Error>
    where
        D: serde::Deserializer<'de>,
    {
        const FIELDS: &[&str] = &[
            "name",
            "formula",
            "value",
            "unit",
            "rounding",
            "source",
        ];
        #[allow(clippy::enum_variant_names)]
        enum GeneratedField {
            Name,
            Formula,
            Value,
            Unit,
            Rounding,
            Source,
        }
        impl<'de> serde::Deserialize<'de> for GeneratedField {
            fn deserialize<D>(
                deserializer: D,
            ) -> std::result::Result<GeneratedField, D::Error>
            where
                D: serde::Deserializer<'de>,
            {
                struct GeneratedVisitor;
                impl serde::de::Visitor<'_> for GeneratedVisitor {
                    type Value = GeneratedField;
                    fn expecting(
                        &self,
                        formatter: &mut std::fmt::Formatter<'_>,
                    ) -> std::fmt::Result {
                        write!(formatter, "expected one of: {:?}", & FIELDS)
                    }
                    #[allow(unused_variables)]
                    fn visit_str<E>(
                        self,
                        value: &str,
                    ) -> std::result::Result<GeneratedField, E>
                    where
                        E: serde::de::Error,
                    {
                        match value {
                            "name" => Ok(GeneratedField::Name),
                            "formula" => Ok(GeneratedField::Formula),
                            "value" => Ok(GeneratedField::Value),
                            "unit" => Ok(GeneratedField::Unit),
                            "rounding" => Ok(GeneratedField::Rounding),
                            "source" => Ok(GeneratedField::Source),
                            _ => Err(serde::de::Error::unknown_field(value, FIELDS)),
                        }
                    }
                }
                deserializer.deserialize_identifier(GeneratedVisitor)
            }
        }
        struct GeneratedVisitor;
        impl<'de> serde::de::Visitor<'de> for GeneratedVisitor {
            type Value = Working;
            fn expecting(
                &self,
                formatter: &mut std::fmt::Formatter<'_>,
            ) -> std::fmt::Result {
                formatter.write_str("struct pennantry.v1.Working")
            }
            fn visit_map<V>(self, mut map_: V) -> std::result::Result<Working, V::Error>
            where
                V: serde::de::MapAccess<'de>,
            {
                let mut name__ = None;
                let mut formula__ = None;
                let mut value__ = None;
                let mut unit__ = None;
                let mut rounding__ = None;
                let mut source__ = None;
                while let Some(k) = map_.next_key()? {
                    match k {
                        GeneratedField::Name => {
                            if name__.is_some() {
                                return Err(serde::de::Error::duplicate_field("name"));
                            }
                            name__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Formula => {
                            if formula__.is_some() {
                                return Err(serde::de::Error::duplicate_field("formula"));
                            }
                            formula__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Value => {
                            if value__.is_some() {
                                return Err(serde::de::Error::duplicate_field("value"));
                            }
                            value__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Unit => {
                            if unit__.is_some() {
                                return Err(serde::de::Error::duplicate_field("unit"));
                            }
                            unit__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Rounding => {
                            if rounding__.is_some() {
                                return Err(serde::de::Error::duplicate_field("rounding"));
                            }
                            rounding__ = Some(map_.next_value()?);
                        }
                        GeneratedField::Source => {
                            if source__.is_some() {
                                return Err(serde::de::Error::duplicate_field("source"));
                            }
                            source__ = Some(map_.next_value()?);
                        }
                    }
                }
                Ok(Working {
                    name: name__.unwrap_or_default(),
                    formula: formula__.unwrap_or_default(),
                    value: value__.unwrap_or_default(),
                    unit: unit__.unwrap_or_default(),
                    rounding: rounding__.unwrap_or_default(),
                    source: source__.unwrap_or_default(),
                })
            }
        }
        deserializer.deserialize_struct("pennantry.v1.Working", FIELDS, GeneratedVisitor)
    }
}
