use std::fmt;

/// A currency by its ISO 4217 code. Only currencies with a minor unit are accepted.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Currency(iso_currency::Currency);

impl Currency {
    /// The currency of an ISO 4217 code, in any case; `None` for unknown codes and for codes without a minor
    /// unit (precious metals, testing).
    pub fn from_code(code: &str) -> Option<Self> {
        let currency = iso_currency::Currency::from_code(&code.trim().to_ascii_uppercase())?;
        currency.exponent().map(|_| Self(currency))
    }

    /// The three-letter code.
    pub fn code(self) -> &'static str {
        self.0.code()
    }

    /// Decimals of the minor unit by ISO 4217: 2 for EUR, 0 for JPY, 3 for KWD.
    pub fn decimals(self) -> u32 {
        u32::from(self.0.exponent().unwrap_or(0))
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.code())
    }
}

impl fmt::Debug for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.code())
    }
}
