//! Messages of the protocol held against its meta-model: what must be there is there and of its type, and nothing else.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde_json::Value;

/// The meta-model.
pub static MODEL: LazyLock<Model> = LazyLock::new(Model::read);

/// The protocol in figures: its types, and what each message holds.
pub struct Model {
    structures: BTreeMap<String, Value>,
    enumerations: BTreeMap<String, Value>,
    aliases: BTreeMap<String, Value>,
    requests: BTreeMap<String, Value>,
    notifications: BTreeMap<String, Value>,
}

/// What is wrong, and where.
type Verdict = Result<(), String>;

impl Model {
    fn read() -> Model {
        let all: Value = serde_json::from_str(include_str!("../data/meta_model.json")).unwrap();
        let by = |list: &str, key: &str| {
            let items = all[list].as_array().unwrap().iter();
            items.map(|item| (item[key].as_str().unwrap().to_owned(), item.clone())).collect()
        };
        Model {
            structures: by("structures", "name"),
            enumerations: by("enumerations", "name"),
            aliases: by("typeAliases", "name"),
            requests: by("requests", "method"),
            notifications: by("notifications", "method"),
        }
    }

    /// Every request a client may make.
    pub fn requests_to_the_server(&self) -> Vec<&str> {
        let asked = self.requests.iter().filter(|(_, request)| request["messageDirection"] != "serverToClient");
        asked.map(|(name, _)| name.as_str()).collect()
    }

    /// Where a server says that it answers a request.
    pub fn capability(&self, method: &str) -> Option<&str> {
        self.requests.get(method)?["serverCapability"].as_str()
    }

    /// The result of a request of the protocol; of a method of our own anything goes.
    pub fn result(&self, method: &str, result: &Value) -> Verdict {
        self.requests.get(method).map_or(Ok(()), |request| self.check(&request["result"], result, method))
    }

    /// The params of a request or a notification of the server.
    pub fn params(&self, method: &str, params: &Value) -> Verdict {
        let known = self.requests.get(method).or_else(|| self.notifications.get(method));
        let known = known.ok_or_else(|| format!("{method} is no message of the protocol"))?;
        match known.get("params") {
            Some(ty) => self.check(ty, params, method),
            None if params.is_null() => Ok(()),
            None => Err(format!("{method} takes no params")),
        }
    }

    fn check(&self, ty: &Value, value: &Value, at: &str) -> Verdict {
        let wrong = |what: &str| Err(format!("{at}: {what} is due, and there is {value}"));
        let items = || ty["items"].as_array().unwrap().iter();
        match ty["kind"].as_str().unwrap() {
            "base" => {
                let name = ty["name"].as_str().unwrap();
                let fits = match name {
                    "string" | "RegExp" => value.is_string(),
                    "URI" | "DocumentUri" => value.as_str().is_some_and(|text| text.contains(':')),
                    "integer" => value.as_i64().is_some_and(|n| i32::try_from(n).is_ok()),
                    "uinteger" => value.as_u64().is_some_and(|n| n <= i32::MAX as u64),
                    "decimal" => value.is_number(),
                    "boolean" => value.is_boolean(),
                    "null" => value.is_null(),
                    other => panic!("the meta-model has a base type {other}"),
                };
                if fits { Ok(()) } else { wrong(name) }
            }
            "reference" => self.reference(ty["name"].as_str().unwrap(), value, at),
            "array" => {
                let Some(all) = value.as_array() else { return wrong("a list") };
                all.iter().enumerate().try_for_each(|(n, one)| self.check(&ty["element"], one, &format!("{at}[{n}]")))
            }
            "map" => {
                let Some(all) = value.as_object() else { return wrong("a map") };
                all.iter().try_for_each(|(key, one)| {
                    self.check(&ty["key"], &Value::String(key.clone()), at)?;
                    self.check(&ty["value"], one, &format!("{at}.{key}"))
                })
            }
            "or" => {
                let faults: Vec<String> = items().filter_map(|ty| self.check(ty, value, at).err()).collect();
                if faults.len() < items().count() { Ok(()) } else { Err(faults.join("; or ")) }
            }
            "tuple" => {
                let Some(all) = value.as_array().filter(|all| all.len() == items().count()) else {
                    return wrong("a tuple");
                };
                items().zip(all).try_for_each(|(ty, one)| self.check(ty, one, at))
            }
            "literal" => self.object(ty["value"]["properties"].as_array().unwrap().iter().collect(), value, at),
            "stringLiteral" | "integerLiteral" | "booleanLiteral" => {
                if ty["value"] == *value {
                    Ok(())
                } else {
                    wrong(&ty["value"].to_string())
                }
            }
            other => panic!("the meta-model has a type of kind {other}"),
        }
    }

    fn reference(&self, name: &str, value: &Value, at: &str) -> Verdict {
        if matches!(name, "LSPAny" | "LSPObject" | "LSPArray") {
            return Ok(());
        }
        if let Some(alias) = self.aliases.get(name) {
            return self.check(&alias["type"], value, at);
        }
        if let Some(all) = self.enumerations.get(name) {
            let known = all["values"].as_array().unwrap().iter().any(|one| one["value"] == *value);
            let free = all["supportsCustomValues"] == true;
            self.check(&all["type"], value, at)?;
            return if known || free { Ok(()) } else { Err(format!("{at}: {value} is no {name}")) };
        }
        let mut properties = Vec::new();
        self.properties(name, &mut properties);
        self.object(properties, value, at)
    }

    fn properties<'m>(&'m self, name: &str, out: &mut Vec<&'m Value>) {
        let structure = self.structures.get(name).unwrap_or_else(|| panic!("the meta-model has no {name}"));
        out.extend(structure["properties"].as_array().unwrap());
        for list in ["extends", "mixins"] {
            for other in structure[list].as_array().into_iter().flatten() {
                self.properties(other["name"].as_str().unwrap(), out);
            }
        }
    }

    fn object(&self, properties: Vec<&Value>, value: &Value, at: &str) -> Verdict {
        let Some(all) = value.as_object() else { return Err(format!("{at}: an object is due, and there is {value}")) };
        for (key, one) in all {
            let property = properties.iter().find(|p| p["name"] == *key);
            let property = property.ok_or_else(|| format!("{at}: nothing is called {key}"))?;
            self.check(&property["type"], one, &format!("{at}.{key}"))?;
        }
        let missing =
            properties.iter().find(|p| p["optional"] != true && !all.contains_key(p["name"].as_str().unwrap()));
        missing.map_or(Ok(()), |p| Err(format!("{at}: {} is missing", p["name"])))
    }
}

#[test]
fn the_meta_model_knows_right_from_wrong() {
    use serde_json::json;
    let model = &*MODEL;
    assert_eq!(model.result("textDocument/hover", &Value::Null), Ok(()));
    assert_eq!(
        model.result("textDocument/hover", &json!({ "contents": { "kind": "markdown", "value": "x" } })),
        Ok(())
    );
    for wrong in [
        json!({ "contents": { "kind": "markup", "value": "x" } }),
        json!({ "contents": "x", "rang": 3 }),
        json!({ "contents": "x", "range": { "start": { "line": 0, "character": -1 }, "end": { "line": 0, "character": 0 } } }),
        json!({}),
        json!([]),
    ] {
        assert!(model.result("textDocument/hover", &wrong).is_err(), "{wrong}");
    }
    assert!(
        model.params("textDocument/publishDiagnostics", &json!({ "uri": "file:///a", "diagnostics": [{}] })).is_err()
    );
    assert!(model.params("wythe/odd", &Value::Null).is_err());
}
